#include "base/line_diff.h"

#include <stdint.h>
#include <string.h>

#include "base/mem.h"
#include "base/text.h"

enum { CONTEXT = 3, MOST_PAIRS = 4000000 };

typedef struct {
  const char *text;
  size_t length; /* with its line end, if it has one */
} Line;

typedef struct {
  Line *lines;
  size_t count;
} Lines;

typedef struct {
  char sign; /* ' ', '-', '+' */
  Line line;
} Row;

typedef struct {
  Row *rows;
  size_t count;
} Script;

static Lines lines_of(const Buf *text)
{
  size_t room = 1;
  for (size_t i = 0; i < text->length; i++) room += text->text[i] == '\n';
  Lines all = { mem_array(room, sizeof *all.lines), 0 };
  for (size_t at = 0; at < text->length;) {
    const char *end = memchr(text->text + at, '\n', text->length - at);
    size_t length = end ? (size_t)(end + 1 - (text->text + at)) : text->length - at;
    all.lines[all.count++] = (Line){ text->text + at, length };
    at += length;
  }
  return all;
}

static bool same(Line a, Line b) { return a.length == b.length && memcmp(a.text, b.text, a.length) == 0; }

static void add_row(Script *script, char sign, Line line) { script->rows[script->count++] = (Row){ sign, line }; }

/* ---- the longest common run of lines, by the table of what is left of both; one row wider than the lines */

static uint16_t *lengths_of(const Line *a, size_t n, const Line *b, size_t m)
{
  uint16_t *left = mem_array((n + 1) * (m + 1), sizeof *left);
  for (size_t i = n; i-- > 0;)
    for (size_t k = m; k-- > 0;) {
      uint16_t down = left[(i + 1) * (m + 1) + k], right = left[i * (m + 1) + k + 1];
      uint16_t both = (uint16_t)(left[(i + 1) * (m + 1) + k + 1] + 1);
      left[i * (m + 1) + k] = same(a[i], b[k]) ? both : down > right ? down : right;
    }
  return left;
}

static void add_least(Script *script, const Line *a, size_t n, const Line *b, size_t m)
{
  uint16_t *left = lengths_of(a, n, b, m);
  size_t i = 0, k = 0;
  while (i < n || k < m) {
    bool both = i < n && k < m && same(a[i], b[k]);
    bool removed = i < n && (k == m || left[(i + 1) * (m + 1) + k] >= left[i * (m + 1) + k + 1]);
    if (both) add_row(script, ' ', a[i]);
    else if (removed) add_row(script, '-', a[i]);
    else add_row(script, '+', b[k]);
    i += both || removed;
    k += both || !removed;
  }
  mem_free(left);
}

static void add_all(Script *script, const Line *a, size_t n, const Line *b, size_t m)
{
  for (size_t i = 0; i < n; i++) add_row(script, '-', a[i]);
  for (size_t k = 0; k < m; k++) add_row(script, '+', b[k]);
}

static Script script_of(Lines a, Lines b)
{
  Script script = { mem_array(a.count + b.count + 1, sizeof *script.rows), 0 };
  size_t head = 0, tail = 0, least = a.count < b.count ? a.count : b.count;
  while (head < least && same(a.lines[head], b.lines[head])) head++;
  while (tail < least - head && same(a.lines[a.count - 1 - tail], b.lines[b.count - 1 - tail])) tail++;
  size_t n = a.count - head - tail, m = b.count - head - tail;
  for (size_t i = 0; i < head; i++) add_row(&script, ' ', a.lines[i]);
  bool few = (n + 1) * (m + 1) <= MOST_PAIRS && n < UINT16_MAX && m < UINT16_MAX;
  (few ? add_least : add_all)(&script, a.lines + head, n, b.lines + head, m);
  for (size_t i = 0; i < tail; i++) add_row(&script, ' ', a.lines[a.count - tail + i]);
  return script;
}

/* ---- printing */

static void put_line(Row row, Buf *out)
{
  buf_putc(out, row.sign);
  bool ends = row.line.length > 0 && row.line.text[row.line.length - 1] == '\n';
  const char *at = row.line.text, *end = at + row.line.length - ends;
  while (at < end) {
    const char *tab = memchr(at, '\t', (size_t)(end - at));
    const char *stop = tab ? tab : end;
    text_escape(out, at, (size_t)(stop - at));
    if (tab) buf_putc(out, '\t');
    at = tab ? tab + 1 : end;
  }
  buf_putc(out, '\n');
  if (!ends) buf_puts(out, "\\ No newline at end of file\n");
}

static size_t count_until(const Script *script, size_t from, size_t until, char other)
{
  size_t count = 0;
  for (size_t i = from; i < until; i++) count += script->rows[i].sign != other;
  return count;
}

/* "12,3"; a range without lines is named by the line before it. */
static void put_range(const Script *script, char sign, size_t from, size_t until, char other, Buf *out)
{
  size_t before = count_until(script, 0, from, other), lines = count_until(script, from, until, other);
  buf_printf(out, "%c%zu", sign, lines ? before + 1 : before);
  if (lines != 1) buf_printf(out, ",%zu", lines);
}

static void put_hunk(const Script *script, size_t from, size_t until, Buf *out)
{
  buf_puts(out, "@@ ");
  put_range(script, '-', from, until, '+', out);
  buf_putc(out, ' ');
  put_range(script, '+', from, until, '-', out);
  buf_puts(out, " @@\n");
  for (size_t i = from; i < until; i++) put_line(script->rows[i], out);
}

static size_t next_change(const Script *script, size_t from)
{
  while (from < script->count && script->rows[from].sign == ' ') from++;
  return from;
}

/* Changes with at most twice the context between them share a hunk. */
static void put_hunks(const Script *script, Buf *out)
{
  size_t change = next_change(script, 0);
  while (change < script->count) {
    size_t from = change > CONTEXT ? change - CONTEXT : 0, last = change;
    for (size_t i = change; i < script->count && i <= last + 2 * CONTEXT + 1; i++)
      if (script->rows[i].sign != ' ') last = i;
    size_t until = last + 1 + CONTEXT < script->count ? last + 1 + CONTEXT : script->count;
    put_hunk(script, from, until, out);
    change = next_change(script, until);
  }
}

bool line_diff(const char *name, const Buf *before, const Buf *after, Buf *out)
{
  bool as_long = before->length == after->length;
  if (as_long && memcmp(buf_text(before), buf_text(after), before->length) == 0) return false;
  Lines a = lines_of(before), b = lines_of(after);
  Script script = script_of(a, b);
  static const char *const heads[] = { "--- ", "+++ " };
  for (int i = 0; i < 2; i++) {
    buf_puts(out, heads[i]);
    text_escape(out, name, strlen(name));
    buf_putc(out, '\n');
  }
  put_hunks(&script, out);
  mem_free(script.rows);
  mem_free(a.lines);
  mem_free(b.lines);
  return true;
}
