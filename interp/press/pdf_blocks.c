/* pdf_blocks.c - each kind of block on the page. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "press/pdf.h"

static const double colours[][3] = {
  [INK] = { 0.106, 0.122, 0.137 },  [SOFT] = { 0.349, 0.388, 0.431 }, [DEEP] = { 0.137, 0.251, 0.310 },
  [TINT] = { 0.949, 0.957, 0.961 }, [LINE] = { 0.788, 0.816, 0.839 }, [WAIT] = { 0.624, 0.706, 0.749 },
  [WHITE] = { 1, 1, 1 },
};

static void set_colour(Page *p, Colour c)
{
  cairo_set_source_rgb(p->cr, colours[c][0], colours[c][1], colours[c][2]);
}

double page_words(Page *p, const char *text, double y, Words words)
{
  PangoFontDescription *font = pango_font_description_from_string("DejaVu Sans");
  int width, height;
  pango_font_description_set_absolute_size(font, words.size * PANGO_SCALE);
  pango_font_description_set_weight(font, words.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_layout_set_font_description(p->layout, font);
  pango_layout_set_width(p->layout, (int)(words.width * PANGO_SCALE));
  pango_layout_set_wrap(p->layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment(p->layout, words.right ? PANGO_ALIGN_RIGHT : PANGO_ALIGN_LEFT);
  pango_layout_set_text(p->layout, text, -1);
  pango_layout_get_size(p->layout, &width, &height);
  if (p->draws) {
    set_colour(p, words.colour);
    cairo_move_to(p->cr, words.x, y);
    pango_cairo_show_layout(p->cr, p->layout);
  }
  pango_font_description_free(font);
  return (double)height / PANGO_SCALE;
}

void page_box(Page *p, double x, double y, double width, double height, Colour colour)
{
  if (!p->draws) return;
  set_colour(p, colour);
  cairo_rectangle(p->cr, x, y, width, height);
  cairo_fill(p->cr);
}

void page_frame(Page *p, double x, double y, double width, double height, double line, Colour colour)
{
  if (!p->draws) return;
  set_colour(p, colour);
  cairo_set_line_width(p->cr, line);
  cairo_rectangle(p->cr, x, y, width, height);
  cairo_stroke(p->cr);
}

static double full(const Page *p) { return p->right - p->left; }
static Words body(const Page *p) { return (Words){ p->left, full(p), p->size, false, false, INK }; }

/* ---- text */

static void title(Page *p, const Block *b)
{
  p->title = block_cell(b, 0);
  Words w = body(p);
  w.bold = true;
  w.size = p->size * 1.75;
  p->y += page_words(p, block_cell(b, 0), p->y, w);
  if (*block_cell(b, 1)) {
    w = body(p);
    w.colour = SOFT;
    p->y += 2 + page_words(p, block_cell(b, 1), p->y + 2, w);
  }
  page_box(p, p->left, p->y + 5, full(p), 2, DEEP);
  p->y += 14;
}

static void price(Page *p, const Block *b)
{
  double line = p->size * 2.4, height = line + p->size * 2.4;
  page_box(p, p->left, p->y, full(p), height, TINT);
  page_box(p, p->left, p->y, 5, height, DEEP);
  Words w = { p->left + 14, full(p) - 26, p->size * 1.2, true, false, INK };
  page_words(p, block_cell(b, 0), p->y + p->size, w);
  w.size = p->size * 2.1;
  w.right = true;
  page_words(p, block_cell(b, 1), p->y + p->size * 0.45, w);
  w = (Words){ p->left + 14, full(p) - 26, p->size * 0.92, false, false, SOFT };
  page_words(p, block_cell(b, 2), p->y + line + p->size * 0.7, w);
  p->y += height + p->size;
}

static void head(Page *p, const Block *b)
{
  Words w = body(p);
  w.bold = true;
  w.size = p->size * 1.18;
  w.colour = DEEP;
  p->y += p->size * 1.2;
  p->y += page_words(p, block_cell(b, 0), p->y, w);
  page_box(p, p->left, p->y + 1.5, full(p), 0.6, LINE);
  p->y += p->size * 0.6;
}

static void text(Page *p, const Block *b)
{
  p->y += page_words(p, block_cell(b, 0), p->y, body(p)) + p->size * 0.4;
}

static void item(Page *p, const Block *b)
{
  Words w = body(p);
  page_box(p, p->left + 2, p->y + p->size * 0.5, p->size * 0.28, p->size * 0.28, DEEP);
  w.x += p->size * 1.2;
  w.width -= p->size * 1.2;
  p->y += page_words(p, block_cell(b, 0), p->y, w) + p->size * 0.3;
}

static void caution(Page *p, const Block *b)
{
  double pad = p->size * 0.5, y = p->y;
  Words w = { p->left + 8 + pad, full(p) - 8 - 2 * pad, p->size, false, false, INK };
  double height = page_words(p, block_cell(b, 0), y + pad, w) + 2 * pad;
  page_frame(p, p->left + 0.5, y, full(p) - 1, height, 1, INK);
  page_box(p, p->left, y, 6, height, INK);
  p->y += height + p->size * 0.5;
}

static void fact(Page *p, const Block *b)
{
  double label = p->size * 8.5;
  Words w = { p->left, label - 8, p->size, false, false, SOFT };
  double left = page_words(p, block_cell(b, 0), p->y, w);
  w = (Words){ p->left + label, full(p) - label, p->size, false, false, INK };
  double right = page_words(p, block_cell(b, 1), p->y, w);
  p->y += (left > right ? left : right) + p->size * 0.2;
}

/* ---- tables */

static void table(Page *p, const Block *b)
{
  double sum = 0, x = p->left;
  p->heads = NULL;
  p->columns = block_cells(b) < COLUMNS_MOST ? block_cells(b) : COLUMNS_MOST;
  for (int i = 0; i < p->columns; i++) sum += atoi(block_cell(b, i) + 1);
  for (int i = 0; i < p->columns; i++) {
    p->column[i] = x;
    p->side[i] = block_cell(b, i)[0];
    x += sum > 0 ? full(p) * atoi(block_cell(b, i) + 1) / sum : 0;
  }
  p->column[p->columns] = p->right;
}

/* The cells of a row, each in its column; the height of the tallest. */
static double cells(Page *p, const Block *b, double y, double size, bool bold, Colour colour)
{
  double tallest = 0;
  for (int i = 0; i < p->columns; i++) {
    double gap = i + 1 < p->columns ? p->size * 0.8 : 0;
    Words w = { p->column[i], p->column[i + 1] - p->column[i] - gap, size, bold, p->side[i] == 'r', colour };
    double height = page_words(p, block_cell(b, i), y, w);
    if (height > tallest) tallest = height;
  }
  return tallest;
}

static void heads(Page *p, const Block *b)
{
  p->heads = b;
  p->y += cells(p, b, p->y, p->size * 0.84, true, SOFT) + 2;
  page_box(p, p->left, p->y, full(p), 1, DEEP);
  p->y += p->size * 0.35;
}

static void row(Page *p, const Block *b)
{
  bool total = b->kind == PAPER_TOTAL;
  if (total) page_box(p, p->left, p->y, full(p), 1, DEEP);
  p->y += p->size * 0.25;
  p->y += cells(p, b, p->y, p->size, total, INK) + p->size * 0.3;
}

static void note(Page *p, const Block *b)
{
  Words w = { p->left, full(p), p->size * 0.84, false, false, SOFT };
  p->y += page_words(p, block_cell(b, 0), p->y - p->size * 0.2, w) + p->size * 0.15;
}

/* ---- the chart */

static double track(const Page *p) { return p->left + full(p) * 0.27; }

static double place(const Page *p, const Block *b, int cell)
{
  return (p->right - track(p)) * atoi(block_cell(b, cell)) / PAPER_SCALE;
}

static void chart(Page *p, const Block *b)
{
  (void)b;
  p->y += p->size * 0.5;
}

static void tick(Page *p, const Block *b)
{
  for (int i = 0; i + 1 < block_cells(b); i += 2) {
    double x = track(p) + place(p, b, i);
    page_box(p, x, p->y, 0.6, p->size * 1.3, LINE);
    Words w = { x + 3, p->right - x, p->size * 0.78, false, false, SOFT };
    page_words(p, block_cell(b, i + 1), p->y, w);
  }
  p->y += p->size * 1.5;
}

static void bar(Page *p, const Block *b)
{
  Words w = { p->left, track(p) - p->left - 8, p->size * 0.88, false, false, INK };
  double label = page_words(p, block_cell(b, 0), p->y, w);
  double height = label > p->size * 1.4 ? label : p->size * 1.4;
  page_box(p, track(p), p->y, p->right - track(p), height, TINT);
  for (int i = 1; i + 2 < block_cells(b); i += 3) {
    double wide = place(p, b, i + 1);
    Colour colour = strcmp(block_cell(b, i + 2), "work") == 0 ? DEEP : WAIT;
    page_box(p, track(p) + place(p, b, i), p->y + height * 0.18, wide < 0.8 ? 0.8 : wide, height * 0.64, colour);
  }
  p->y += height + 2;
}

/* ---- the crew's */

static void step(Page *p, const Block *b)
{
  Buf words = { 0 };
  double box = p->size * 1.05;
  buf_printf(&words, "%s. %s %s", block_cell(b, 0), block_cell(b, 1), block_cell(b, 2));
  p->y += p->size * 0.5;
  page_box(p, p->left, p->y, full(p), 1.2, INK);
  p->y += p->size * 0.5;
  page_frame(p, p->left + 1, p->y + p->size * 0.2, box, box, 1.2, INK);
  double left = full(p) * 0.6, indent = box + p->size * 0.8;
  Words w = { p->left + indent, left - indent - 8, p->size * 1.12, true, false, INK };
  double name = page_words(p, buf_text(&words), p->y, w);
  w = (Words){ p->left + left, full(p) - left, p->size * 1.05, false, true, INK };
  double tool = page_words(p, block_cell(b, 3), p->y, w);
  buf_free(&words);
  p->y += (name > tool ? name : tool) + p->size * 0.35;
}

static void hold(Page *p, const Block *b)
{
  double pad = p->size * 0.4, y = p->y;
  bool draws = p->draws;
  Words w = { p->left + 10, full(p) - 20, p->size, true, false, WHITE };
  p->draws = false;
  double height = page_words(p, block_cell(b, 0), y, w) + 2 * pad;
  p->draws = draws;
  page_box(p, p->left, y, full(p), height, INK);
  page_words(p, block_cell(b, 0), y + pad, w);
  p->y += height + p->size * 0.4;
}

enum { BLANKS_MOST = 1000 };

static void blanks(Page *p, const Block *b)
{
  double wide = p->size * 4.6, high = p->size * 2.1, gap = p->size * 0.6, x = p->left;
  int count = atoi(block_cell(b, 0));
  if (count > BLANKS_MOST) count = BLANKS_MOST;
  for (int i = 1; i <= count; i++) {
    char number[16];
    if (x + wide > p->right + 0.5) {
      x = p->left;
      p->y += high + gap;
    }
    snprintf(number, sizeof number, "%d", i);
    page_frame(p, x + 0.5, p->y, wide - 1, high, 0.8, SOFT);
    page_words(p, number, p->y + 2, (Words){ x + 3, wide, p->size * 0.65, false, false, SOFT });
    x += wide + gap;
  }
  p->y += high + p->size * 0.6;
}

static void sign(Page *p, const Block *b)
{
  int count = block_cells(b) > 0 ? block_cells(b) : 1;
  double gap = p->size * 1.2, wide = (full(p) - gap * (count - 1)) / count;
  p->y += p->size * 2.2;
  for (int i = 0; i < count; i++) {
    double x = p->left + i * (wide + gap);
    page_box(p, x, p->y, wide, 0.8, INK);
    page_words(p, block_cell(b, i), p->y + 2, (Words){ x, wide, p->size * 0.84, false, false, SOFT });
  }
  p->y += p->size * 1.6;
}

static void nothing(Page *p, const Block *b)
{
  (void)p;
  (void)b;
}

static void (*const puts_of[PAPER_KINDS])(Page *p, const Block *b) = {
  [PAPER_BEGIN] = nothing, [PAPER_TITLE] = title, [PAPER_PRICE] = price,     [PAPER_HEAD] = head,
  [PAPER_TEXT] = text,     [PAPER_ITEM] = item,   [PAPER_CAUTION] = caution, [PAPER_FACT] = fact,
  [PAPER_TABLE] = table,   [PAPER_HEADS] = heads, [PAPER_ROW] = row,         [PAPER_TOTAL] = row,
  [PAPER_NOTE] = note,     [PAPER_CHART] = chart, [PAPER_TICK] = tick,       [PAPER_BAR] = bar,
  [PAPER_STEP] = step,     [PAPER_HOLD] = hold,   [PAPER_BLANKS] = blanks,   [PAPER_SIGN] = sign,
  [PAPER_BREAK] = nothing,
};

void page_block(Page *p, const Block *block) { puts_of[block->kind](p, block); }
