/* xlsx.c - a workbook of lines as an Office Open XML file (ECMA-376). */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <time.h>
#include <unistd.h>
#include <xlsxwriter.h>

#include "base/cells.h"
#include "press/press.h"
#include "report/workbook.h"

enum { DEEP = 0x23404F, TINT = 0xF2F4F5, SOFT = 0x59636E, FRAME = 0x9FB4BF };

typedef struct {
  lxw_workbook *book;
  lxw_worksheet *sheet;
  lxw_format *styles[STYLES];
} Press;

static const struct {
  const char *number;
  bool bold, right, wrap, input, small, line;
  double size;
} looks[STYLES] = {
  [STYLE_TEXT] = { .wrap = true },
  [STYLE_SMALL] = { .wrap = true, .small = true },
  [STYLE_TITLE] = { .bold = true, .size = 14 },
  [STYLE_HEAD] = { .bold = true, .wrap = true, .line = true },
  [STYLE_HEAD_RIGHT] = { .bold = true, .wrap = true, .line = true, .right = true },
  [STYLE_NUMBER] = { .number = "#,##0.00" },
  [STYLE_MONEY] = { .number = "#,##0.00" },
  [STYLE_RATE] = { .number = "#,##0.00##" },
  [STYLE_SHARE] = { .number = "0.00##%" },
  [STYLE_IN_NUMBER] = { .number = "#,##0.00", .input = true },
  [STYLE_IN_RATE] = { .number = "#,##0.00##", .input = true },
  [STYLE_IN_SHARE] = { .number = "0.00##%", .input = true },
  [STYLE_TOTAL] = { .bold = true, .line = true },
  [STYLE_TOTAL_MONEY] = { .number = "#,##0.00", .bold = true, .line = true },
  [STYLE_PRICE] = { .number = "#,##0.00", .bold = true, .size = 16 },
};

static lxw_format *make_style(lxw_workbook *book, int style)
{
  lxw_format *f = workbook_add_format(book);
  format_set_align(f, LXW_ALIGN_VERTICAL_TOP);
  if (looks[style].number) format_set_num_format(f, looks[style].number);
  if (looks[style].bold) format_set_bold(f);
  if (looks[style].right) format_set_align(f, LXW_ALIGN_RIGHT);
  if (looks[style].wrap) format_set_text_wrap(f);
  if (looks[style].size > 0) format_set_font_size(f, looks[style].size);
  if (looks[style].small) format_set_font_color(f, SOFT);
  if (looks[style].line) {
    format_set_bottom(f, LXW_BORDER_THIN);
    format_set_bottom_color(f, DEEP);
    format_set_bg_color(f, TINT);
  }
  if (looks[style].input) {
    format_set_border(f, LXW_BORDER_THIN);
    format_set_border_color(f, FRAME);
    format_set_unlocked(f);
  }
  return f;
}

/* "2027-03-01" at midnight UTC; 0 if it is no date. */
static time_t date_of(const char *text)
{
  struct tm day = { 0 };
  if (sscanf(text, "%d-%d-%d", &day.tm_year, &day.tm_mon, &day.tm_mday) != 3) return 0;
  day.tm_year -= 1900;
  day.tm_mon -= 1;
  return timegm(&day);
}

static bool on_book(Press *p, const Cells *line)
{
  lxw_doc_properties properties = { .title = (char *)cells_at(line, 1), .created = date_of(cells_at(line, 2)) };
  workbook_set_properties(p->book, &properties);
  for (int i = 0; i < STYLES; i++) p->styles[i] = make_style(p->book, i);
  return true;
}

/* In the foot of a page an ampersand begins a code; two stand for one. */
static void put_foot(Press *p, const char *text)
{
  enum { LONGEST = 200 };
  Buf foot = { 0 };
  buf_puts(&foot, "&L&8");
  for (; *text && foot.length < LONGEST; text++) {
    if (*text == '&') buf_putc(&foot, '&');
    buf_putc(&foot, *text);
  }
  buf_puts(&foot, "&R&8&P / &N");
  worksheet_set_footer(p->sheet, buf_text(&foot));
  buf_free(&foot);
}

static bool on_sheet(Press *p, const Cells *line)
{
  p->sheet = workbook_add_worksheet(p->book, cells_at(line, 1));
  if (!p->sheet) return false;
  if (strcmp(cells_at(line, 2), "landscape") == 0) worksheet_set_landscape(p->sheet);
  worksheet_set_margins(p->sheet, 0.5, 0.5, 0.6, 0.7);
  worksheet_fit_to_pages(p->sheet, 1, 0);
  put_foot(p, cells_at(line, 3));
  return true;
}

static bool on_columns(Press *p, const Cells *line)
{
  for (int i = 1; i < line->count; i++)
    worksheet_set_column(p->sheet, (lxw_col_t)(i - 1), (lxw_col_t)(i - 1), atof(line->cell[i]), NULL);
  return true;
}

static bool on_repeat(Press *p, const Cells *line)
{
  lxw_row_t first = (lxw_row_t)atoi(cells_at(line, 1)), last = (lxw_row_t)atoi(cells_at(line, 2));
  worksheet_freeze_panes(p->sheet, last + 1, 0);
  return worksheet_repeat_rows(p->sheet, first, last) == LXW_NO_ERROR;
}

static lxw_format *style_of(const Press *p, const char *name)
{
  for (int i = 0; i < STYLES; i++)
    if (strcmp(workbook_styles[i], name) == 0) return p->styles[i];
  return NULL;
}

static bool on_cell(Press *p, const Cells *line)
{
  lxw_row_t row = (lxw_row_t)atoi(cells_at(line, 1));
  lxw_col_t column = (lxw_col_t)atoi(cells_at(line, 2));
  lxw_format *style = style_of(p, cells_at(line, 3));
  const char *kind = cells_at(line, 4), *value = cells_at(line, 5);
  if (!style) return false;
  if (strcmp(kind, "n") == 0)
    return worksheet_write_number(p->sheet, row, column, atof(value), style) == LXW_NO_ERROR;
  if (strcmp(kind, "t") == 0 && *value == '\0')
    return worksheet_write_blank(p->sheet, row, column, style) == LXW_NO_ERROR;
  if (strcmp(kind, "t") == 0) return worksheet_write_string(p->sheet, row, column, value, style) == LXW_NO_ERROR;
  Buf formula = { 0 };
  buf_printf(&formula, "=%s", value);
  lxw_error error =
    worksheet_write_formula_num(p->sheet, row, column, buf_text(&formula), style, atof(cells_at(line, 6)));
  buf_free(&formula);
  return strcmp(kind, "f") == 0 && error == LXW_NO_ERROR;
}

static const struct {
  const char *name;
  bool (*take)(Press *p, const Cells *line);
} lines[] = { { "book", on_book },
              { "sheet", on_sheet },
              { "columns", on_columns },
              { "repeat", on_repeat },
              { "cell", on_cell } };
enum { LINES = sizeof lines / sizeof *lines };

/* The first line names the book, the second its first sheet; only then there is something to write into. */
static bool take_line(Press *p, const Cells *line, int number)
{
  size_t i = 0;
  while (i < LINES && strcmp(lines[i].name, cells_at(line, 0)) != 0) i++;
  if (i == LINES || (number < 2 && i != (size_t)number)) return false;
  return lines[i].take(p, line);
}

/* In the place of the library's own, which opens files in a folder for temporary ones: the press may open none. */
FILE *tmpfileplus(const char *folder, const char *prefix, char **path, int keep);
FILE *tmpfileplus(const char *folder, const char *prefix, char **path, int keep)
{
  (void)folder, (void)prefix, (void)path, (void)keep;
  int fd = memfd_create("sheet", MFD_CLOEXEC);
  FILE *file = fd < 0 ? NULL : fdopen(fd, "w+b");
  if (fd >= 0 && !file) close(fd);
  return file;
}

bool press_xlsx(const Buf *workbook)
{
  lxw_workbook_options options = { 0 };
  Press p = { .book = workbook_new_opt("/proc/self/fd/1", &options) };
  Cells line = { 0 };
  const char *at = buf_text(workbook), *end = at + workbook->length;
  bool fine = p.book != NULL;
  int number = 0;
  for (; fine && cells_next(&at, end, &line); number++) fine = take_line(&p, &line, number);
  cells_free(&line);
  if (p.book == NULL) return false;
  return workbook_close(p.book) == LXW_NO_ERROR && fine && at == end && number > 1;
}
