/* diag_print.c - findings for people: with excerpts, or one line each. */
#include <limits.h>
#include <stdio.h>
#include <string.h>

#include "base/diag.h"
#include "base/diag_excerpt.h"
#include "base/text.h"

typedef struct {
  const Sources *sources;
  DiagStyle style;
  Buf *out;
} Printer;

static const char *const LEVEL_NAMES[DIAG_LEVELS] = { "error", "warning", "note" };

const char *diag_level_name(DiagLevel level) { return LEVEL_NAMES[level]; }

/* ---- colour: ECMA-48 SGR, only when the style asks for it */

typedef enum { PAINT_ERROR, PAINT_WARNING, PAINT_NOTE, PAINT_GUTTER, PAINT_STRONG } Paint;

static void paint(Printer *p, Paint as)
{
  static const char *const codes[] = { "\x1b[1;31m", "\x1b[1;33m", "\x1b[1;36m", "\x1b[34m", "\x1b[1m" };
  if (p->style.colour) buf_puts(p->out, codes[as]);
}

static void unpaint(Printer *p)
{
  if (p->style.colour) buf_puts(p->out, "\x1b[0m");
}

static void put_escaped(Buf *out, const char *text) { text_escape(out, text, strlen(text)); }

static void put_place(Printer *p, Span at)
{
  Place place = sources_place(p->sources, at.source, at.begin);
  put_escaped(p->out, sources_name(p->sources, at.source));
  buf_printf(p->out, ":%d:%d", place.line, place.column);
}

/* ---- excerpts with what stands under them */

enum { NUMBER_CELLS = 4 };

/* "   4 | ", or as many blanks before the bar when there is no number. */
static void put_gutter(Printer *p, int line, bool with_number)
{
  char number[16];
  int cells = snprintf(number, sizeof number, "%*d", NUMBER_CELLS, line);
  if (!with_number) memset(number, ' ', (size_t)cells);
  paint(p, PAINT_GUTTER);
  buf_printf(p->out, "%s | ", number);
  unpaint(p);
}

static int gutter_cells(int line)
{
  int cells = snprintf(NULL, 0, "%*d", NUMBER_CELLS, line);
  return cells + (int)strlen(" | ");
}

static void put_folded(Printer *p, const char *text, int indent)
{
  Buf safe = { 0 };
  put_escaped(&safe, text);
  text_fold(p->out, buf_text(&safe), p->style.width, indent);
  buf_free(&safe);
}

/* "  note: the next abrasive is ...", nothing if there is no text. */
static void put_remark(Printer *p, const char *what, const char *text)
{
  if (text == NULL) return;
  paint(p, PAINT_STRONG);
  buf_printf(p->out, "  %s:", what);
  unpaint(p);
  buf_putc(p->out, ' ');
  put_folded(p, text, (int)strlen(what) + 4);
  buf_putc(p->out, '\n');
}

static Excerpt put_excerpt(Printer *p, Span at)
{
  int line = sources_place(p->sources, at.source, at.begin).line;
  Excerpt excerpt = excerpt_of(p->sources, at, p->style.width - gutter_cells(line));
  buf_puts(p->out, "  ");
  put_place(p, at);
  buf_putc(p->out, '\n');
  put_gutter(p, line, true);
  excerpt_print(&excerpt, p->out);
  buf_putc(p->out, '\n');
  return excerpt;
}

/* A label's text stands beside its underline, or folded below when the row has no room left. */
static void put_label_text(Printer *p, const char *text, int cells_before, int gutter)
{
  if (text_width(text, strlen(text)) < p->style.width - cells_before) {
    buf_putc(p->out, ' ');
    put_escaped(p->out, text);
  } else {
    buf_putc(p->out, '\n');
    buf_repeat(p->out, ' ', (size_t)gutter);
    put_folded(p, text, gutter);
  }
}

/* A row below the excerpt: `mark` under the span's cells, then the text, which may be NULL. False, and no row,
 * if the span is not to be seen in the excerpt. */
static bool put_underline(Printer *p, const Excerpt *excerpt, Span at, char mark, Paint as, const char *text)
{
  Underline under;
  int gutter = gutter_cells(excerpt->line);
  if (!excerpt_underline(excerpt, at, &under)) return false;
  put_gutter(p, excerpt->line, false);
  buf_repeat(p->out, ' ', (size_t)under.indent);
  paint(p, as);
  buf_repeat(p->out, mark, (size_t)under.cells);
  unpaint(p);
  if (text) put_label_text(p, text, gutter + under.indent + under.cells, gutter);
  buf_putc(p->out, '\n');
  return true;
}

static bool put_label_under(Printer *p, const Excerpt *excerpt, const DiagLabel *label)
{
  if (label->at.source != excerpt->source) return false;
  if (sources_place(p->sources, label->at.source, label->at.begin).line != excerpt->line) return false;
  return put_underline(p, excerpt, label->at, '-', PAINT_GUTTER, label->text);
}

static void put_label_apart(Printer *p, const DiagLabel *label)
{
  if (span_is_nowhere(label->at)) {
    put_remark(p, "note", label->text);
    return;
  }
  Excerpt excerpt = put_excerpt(p, label->at);
  put_underline(p, &excerpt, label->at, '-', PAINT_GUTTER, label->text);
}

/* The primary place, with the labels of its line under the same excerpt and the others after it. */
static void put_places(Printer *p, const Diag *d)
{
  bool done[DIAG_LABELS] = { false };
  if (!span_is_nowhere(d->at)) {
    Excerpt excerpt = put_excerpt(p, d->at);
    put_underline(p, &excerpt, d->at, '^', (Paint)d->level, NULL);
    for (int i = 0; i < d->label_count; i++) done[i] = put_label_under(p, &excerpt, &d->labels[i]);
  }
  for (int i = 0; i < d->label_count; i++)
    if (!done[i]) put_label_apart(p, &d->labels[i]);
}

/* ---- the whole finding */

static void put_heading(Printer *p, const Diag *d)
{
  paint(p, (Paint)d->level);
  buf_printf(p->out, "%s[", LEVEL_NAMES[d->level]);
  put_escaped(p->out, d->code);
  buf_putc(p->out, ']');
  unpaint(p);
  buf_puts(p->out, ": ");
  paint(p, PAINT_STRONG);
  put_escaped(p->out, d->message);
  unpaint(p);
  buf_putc(p->out, '\n');
}

static void put_finding(Printer *p, const Diag *d)
{
  put_heading(p, d);
  put_places(p, d);
  put_remark(p, "note", d->note);
  put_remark(p, "help", d->help);
  put_remark(p, "basis", d->basis);
}

static void put_total(Buf *out, const char **between, int count, const char *name)
{
  if (count == 0) return;
  buf_printf(out, "%s%d %s%s", *between, count, name, count == 1 ? "" : "s");
  *between = ", ";
}

static void put_totals(const Diags *diags, Buf *out)
{
  const char *between = "";
  put_total(out, &between, diags_errors(diags), LEVEL_NAMES[DIAG_ERROR]);
  put_total(out, &between, diags_warnings(diags), LEVEL_NAMES[DIAG_WARNING]);
  put_total(out, &between, diags_notes(diags), LEVEL_NAMES[DIAG_NOTE]);
  if (*between) buf_putc(out, '\n');
}

static void put_not_kept(const Diags *diags, Buf *out)
{
  int more = diags_not_kept(diags);
  if (more) buf_printf(out, "%d more finding%s not shown\n", more, more == 1 ? " is" : "s are");
}

void diags_print(const Diags *diags, const Sources *sources, DiagStyle style, Buf *out)
{
  Printer p = { sources, style, out };
  if (p.style.width <= 0) p.style.width = INT_MAX;
  for (size_t i = 0; i < diags_count(diags); i++) {
    put_finding(&p, diags_get(diags, i));
    buf_putc(out, '\n');
  }
  put_not_kept(diags, out);
  put_totals(diags, out);
}

void diags_print_place(const Sources *sources, Span at, DiagStyle style, Buf *out)
{
  Printer p = { sources, style, out };
  if (p.style.width <= 0) p.style.width = INT_MAX;
  if (span_is_nowhere(at)) return;
  Excerpt excerpt = put_excerpt(&p, at);
  put_underline(&p, &excerpt, at, '^', PAINT_NOTE, NULL);
}

/* ---- one line a finding */

static void put_short(Printer *p, const Diag *d)
{
  if (!span_is_nowhere(d->at)) {
    put_place(p, d->at);
    buf_puts(p->out, ": ");
  }
  buf_printf(p->out, "%s[", LEVEL_NAMES[d->level]);
  put_escaped(p->out, d->code);
  buf_puts(p->out, "]: ");
  put_escaped(p->out, d->message);
  if (d->help) {
    buf_puts(p->out, " (");
    put_escaped(p->out, d->help);
    buf_putc(p->out, ')');
  }
  buf_putc(p->out, '\n');
}

void diags_print_short(const Diags *diags, const Sources *sources, Buf *out)
{
  Printer p = { .sources = sources, .out = out };
  for (size_t i = 0; i < diags_count(diags); i++) put_short(&p, diags_get(diags, i));
  put_not_kept(diags, out);
}
