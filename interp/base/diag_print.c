/* diag_print.c - findings for people: with excerpts, or one line each. */
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
  text_fold(p->out, buf_text(&safe), p->style.width > 0 ? p->style.width : INT32_MAX, indent);
  buf_free(&safe);
}

/* A row below the excerpt: `mark` under the span's cells, then the text, which may be empty. */
static void put_underline(Printer *p, int line, Underline under, char mark, Paint as, const char *text)
{
  put_gutter(p, line, false);
  buf_repeat(p->out, ' ', (size_t)under.indent);
  paint(p, as);
  buf_repeat(p->out, mark, (size_t)under.cells);
  unpaint(p);
  if (*text) {
    buf_putc(p->out, ' ');
    put_escaped(p->out, text);
  }
  buf_putc(p->out, '\n');
}

static void put_excerpt_line(Printer *p, int line, const Excerpt *excerpt)
{
  put_gutter(p, line, true);
  excerpt_print(excerpt, p->out);
  buf_putc(p->out, '\n');
}

static Excerpt excerpt_at(Printer *p, Span at, int line)
{
  int room = p->style.width > 0 ? p->style.width - gutter_cells(line) : 0;
  return excerpt_of(p->sources, at, p->style.width > 0 && room < 1 ? 1 : room);
}

/* A label somewhere else: its own place and excerpt. */
static void put_far_label(Printer *p, const DiagLabel *label)
{
  if (span_is_nowhere(label->at)) {
    buf_puts(p->out, "  note: ");
    put_folded(p, label->text, (int)strlen("  note: "));
    buf_putc(p->out, '\n');
    return;
  }
  int line = sources_place(p->sources, label->at.source, label->at.begin).line;
  Excerpt excerpt = excerpt_at(p, label->at, line);
  Underline under;
  buf_puts(p->out, "  ");
  put_place(p, label->at);
  buf_putc(p->out, '\n');
  put_excerpt_line(p, line, &excerpt);
  if (excerpt_underline(&excerpt, p->sources, label->at, &under))
    put_underline(p, line, under, '-', PAINT_GUTTER, label->text);
}

static bool on_line(Printer *p, Span at, uint32_t source, int line)
{
  return at.source == source && sources_place(p->sources, source, at.begin).line == line;
}

/* The primary place, with the labels of the same line under the same excerpt and the others after it. */
static void put_places(Printer *p, const Diag *d)
{
  bool done[DIAG_LABELS] = { false };
  if (!span_is_nowhere(d->at)) {
    int line = sources_place(p->sources, d->at.source, d->at.begin).line;
    Excerpt excerpt = excerpt_at(p, d->at, line);
    Underline under;
    buf_puts(p->out, "  ");
    put_place(p, d->at);
    buf_putc(p->out, '\n');
    put_excerpt_line(p, line, &excerpt);
    if (excerpt_underline(&excerpt, p->sources, d->at, &under))
      put_underline(p, line, under, '^', (Paint)d->level, "");
    for (int i = 0; i < d->label_count; i++) {
      const DiagLabel *label = &d->labels[i];
      done[i] = on_line(p, label->at, d->at.source, line) &&
                excerpt_underline(&excerpt, p->sources, label->at, &under);
      if (done[i]) put_underline(p, line, under, '-', PAINT_GUTTER, label->text);
    }
  }
  for (int i = 0; i < d->label_count; i++)
    if (!done[i]) put_far_label(p, &d->labels[i]);
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
  for (size_t i = 0; i < diags_count(diags); i++) {
    put_finding(&p, diags_get(diags, i));
    buf_putc(out, '\n');
  }
  put_not_kept(diags, out);
  put_totals(diags, out);
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
