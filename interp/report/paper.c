#include "report/paper.h"

#include <string.h>

const char *const paper_names[PAPER_KINDS] = {
  "begin", "title", "price", "head",  "text", "item", "caution", "fact", "table",  "heads", "row",
  "total", "note",  "chart", "tick",  "bar",  "step", "hold",    "blanks", "sign", "break",
};

void paper_add_list(Buf *out, PaperKind kind, const char *const *cells, int count)
{
  const char *all[CELLS_MOST];
  all[0] = paper_names[kind];
  if (count > CELLS_MOST - 1) count = CELLS_MOST - 1;
  for (int i = 0; i < count; i++) all[i + 1] = cells[i];
  cells_add_list(out, all, count + 1);
}

void paper_add(Buf *out, PaperKind kind, ...)
{
  const char *cells[CELLS_MOST], *cell;
  int count = 0;
  va_list args;
  va_start(args, kind);
  while (count < CELLS_MOST && (cell = va_arg(args, const char *)) != NULL) cells[count++] = cell;
  va_end(args);
  paper_add_list(out, kind, cells, count);
}

bool paper_next(const char **at, const char *end, Block *block)
{
  if (!cells_next(at, end, &block->line)) return false;
  int kind = 0;
  while (kind < PAPER_KINDS && strcmp(paper_names[kind], cells_at(&block->line, 0)) != 0) kind++;
  block->kind = (PaperKind)kind;
  return kind < PAPER_KINDS;
}

const char *block_cell(const Block *block, int index) { return cells_at(&block->line, index + 1); }
int block_cells(const Block *block) { return block->line.count - 1; }
