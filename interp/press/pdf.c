/* pdf.c - a paper as PDF: blocks from top to bottom, what belongs together on one page, a foot on each. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cairo-pdf.h>

#include "base/mem.h"
#include "press/pdf.h"
#include "press/press.h"

static const struct {
  const char *name;
  double width, height;
} pages[] = { { "letter", 612, 792 }, { "a4", 595.276, 841.890 } };

static const struct {
  const char *name;
  double size;
} sizes[] = { { "normal", 9.2 }, { "large", 12 } };

typedef struct {
  Block *blocks;
  int count;
} Paper;

/* ---- reading */

static bool read_paper(const Buf *text, Paper *paper)
{
  const char *at = buf_text(text), *end = at + text->length;
  int room = 0;
  *paper = (Paper){ 0 };
  for (;;) {
    if (paper->count == room) {
      room = room ? 2 * room : 256;
      paper->blocks = mem_grow(paper->blocks, (size_t)room, sizeof *paper->blocks);
    }
    paper->blocks[paper->count] = (Block){ 0 };
    if (at == end || !paper_next(&at, end, &paper->blocks[paper->count])) break;
    paper->count++;
  }
  bool whole = at == end && paper->blocks[paper->count].line.count == 0;
  cells_free(&paper->blocks[paper->count].line);
  return whole && paper->count > 0 && paper->blocks[0].kind == PAPER_BEGIN;
}

static void free_paper(Paper *paper)
{
  for (int i = 0; i < paper->count; i++) cells_free(&paper->blocks[i].line);
  mem_free(paper->blocks);
}

/* ---- pages */

static void end_page(Page *p)
{
  Words w = { p->left, (p->right - p->left) * 0.6, 7, false, false, SOFT };
  page_words(p, p->foot, p->bottom + 14, w);
  Buf number = { 0 };
  buf_printf(&number, "%s%s%d / %d", p->several ? p->title : "", p->several ? "   " : "", p->page, p->pages);
  w = (Words){ p->left, p->right - p->left, 7, false, true, SOFT };
  page_words(p, buf_text(&number), p->bottom + 14, w);
  buf_free(&number);
  if (p->draws) cairo_show_page(p->cr);
}

static void next_page(Page *p)
{
  end_page(p);
  p->page++;
  p->y = p->top;
}

static bool in_table(PaperKind kind) { return kind == PAPER_ROW || kind == PAPER_TOTAL || kind == PAPER_NOTE; }

/* Where the group that begins with this block ends: what should not be torn apart. */
static int group_end(const Paper *paper, int first)
{
  const Block *b = paper->blocks;
  int i = first + 1;
  switch (b[first].kind) {
  case PAPER_STEP:
    while (i < paper->count && b[i].kind != PAPER_STEP && b[i].kind != PAPER_HEAD && b[i].kind != PAPER_BREAK) i++;
    return i;
  case PAPER_HEAD:
  case PAPER_TABLE:
  case PAPER_HEADS: return i < paper->count && b[i].kind != PAPER_BREAK ? group_end(paper, i) : i;
  case PAPER_CHART:
    while (i < paper->count && (b[i].kind == PAPER_TICK || b[i].kind == PAPER_BAR) && i - first < 12) i++;
    return i;
  case PAPER_HOLD:
  case PAPER_ROW:
    while (i < paper->count && (b[i].kind == PAPER_NOTE || b[i].kind == PAPER_SIGN)) i++;
    return i;
  default: return i;
  }
}

/* What the blocks would take, put on a copy of the page that does not draw. */
static double height_of(const Page *p, const Paper *paper, int first, int end)
{
  Page copy = *p;
  copy.draws = false;
  for (int i = first; i < end; i++) page_block(&copy, &paper->blocks[i]);
  return copy.y - p->y;
}

static void put_group(Page *p, const Paper *paper, int first, int end)
{
  double room = p->bottom - p->top, height = height_of(p, paper, first, end);
  bool whole = height <= room;
  if (whole && p->y + height > p->bottom && p->y > p->top) {
    next_page(p);
    if (in_table(paper->blocks[first].kind) && p->heads) page_block(p, p->heads);
  }
  for (int i = first; i < end; i++) {
    if (!whole && p->y + height_of(p, paper, i, i + 1) > p->bottom && p->y > p->top) next_page(p);
    page_block(p, &paper->blocks[i]);
  }
}

static void put_paper(Page *p, const Paper *paper)
{
  p->page = 1;
  p->y = p->top;
  p->heads = NULL;
  p->title = "";
  for (int i = 1, end; i < paper->count; i = end) {
    end = group_end(paper, i);
    if (paper->blocks[i].kind == PAPER_BREAK) next_page(p);
    else put_group(p, paper, i, end);
  }
  end_page(p);
  p->pages = p->page;
}

/* ---- the file */

static cairo_status_t write_out(void *closure, const unsigned char *bytes, unsigned int length)
{
  return fwrite(bytes, 1, length, closure) == length ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_WRITE_ERROR;
}

static Page page_for(const Block *begin)
{
  Page p = { .foot = block_cell(begin, 4) };
  for (size_t i = 0; i < sizeof pages / sizeof *pages; i++)
    if (i == 0 || strcmp(pages[i].name, block_cell(begin, 1)) == 0) {
      p.width = pages[i].width;
      p.height = pages[i].height;
    }
  for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++)
    if (i == 0 || strcmp(sizes[i].name, block_cell(begin, 2)) == 0) p.size = sizes[i].size;
  p.left = p.top = 46;
  p.right = p.width - 46;
  p.bottom = p.height - 54;
  return p;
}

static void set_metadata(const Page *p, const Block *begin)
{
  char date[64];
  snprintf(date, sizeof date, "%.10sT00:00:00Z", block_cell(begin, 5));
  cairo_pdf_surface_set_metadata(p->surface, CAIRO_PDF_METADATA_TITLE, block_cell(begin, 3));
  cairo_pdf_surface_set_metadata(p->surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
  cairo_pdf_surface_set_metadata(p->surface, CAIRO_PDF_METADATA_CREATOR, "gritwork");
}

/* Glyphs stand where the font puts them, not on whole pixels: paper is finer than a screen. */
static PangoLayout *layout_for(cairo_t *cr, const char *language)
{
  PangoLayout *layout = pango_cairo_create_layout(cr);
  PangoContext *context = pango_layout_get_context(layout);
  cairo_font_options_t *options = cairo_font_options_create();
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  pango_cairo_context_set_font_options(context, options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(context, FALSE);
  pango_context_set_language(context, pango_language_from_string(language));
  pango_layout_context_changed(layout);
  return layout;
}

static int titles_of(const Paper *paper)
{
  int titles = 0;
  for (int i = 0; i < paper->count; i++) titles += paper->blocks[i].kind == PAPER_TITLE;
  return titles;
}

/* Once to count the pages, once to draw. */
static bool set_pages(const Paper *paper)
{
  Page p = page_for(&paper->blocks[0]);
  p.surface = cairo_pdf_surface_create_for_stream(write_out, stdout, p.width, p.height);
  set_metadata(&p, &paper->blocks[0]);
  p.cr = cairo_create(p.surface);
  p.layout = layout_for(p.cr, block_cell(&paper->blocks[0], 0));
  p.several = titles_of(paper) > 1;
  put_paper(&p, paper);
  p.draws = true;
  put_paper(&p, paper);
  g_object_unref(p.layout);
  cairo_destroy(p.cr);
  cairo_surface_finish(p.surface);
  bool fine = cairo_surface_status(p.surface) == CAIRO_STATUS_SUCCESS;
  cairo_surface_destroy(p.surface);
  return fine && fflush(stdout) == 0;
}

bool press_pdf(const Buf *text)
{
  Paper paper;
  bool fine = read_paper(text, &paper) && set_pages(&paper);
  free_paper(&paper);
  return fine;
}
