#include "report/page.h"

#include <string.h>

#include "base/text.h"
#include "model/date.h"

void page_put(Buf *out, const char *text) { text_escape(out, text, strlen(text)); }

bool page_fits(const char *text, int cells) { return text_width(text, strlen(text)) <= cells; }

/* The longest start of an escaped text that fits, and ".." after it. */
static void cut(Buf *text, int cells)
{
  if (cells < 3 || page_fits(buf_text(text), cells)) return;
  size_t at = 0;
  for (int used = 0, next; at < text->length; used += next) {
    size_t bytes = text_next(text->text + at, text->length - at, &next);
    if (used + next > cells - 2) break;
    at += bytes;
  }
  text->length = at;
  text->text[at] = '\0';
  buf_puts(text, "..");
}

void page_left(Buf *out, const char *text, int cells)
{
  Buf cell = { 0 };
  page_put(&cell, text);
  cut(&cell, cells);
  text_left(out, buf_text(&cell), cells);
  buf_free(&cell);
}

void page_right(Buf *out, const char *text, int cells)
{
  Buf cell = { 0 };
  page_put(&cell, text);
  text_right(out, buf_text(&cell), cells);
  buf_free(&cell);
}

void page_end_line(Buf *out)
{
  while (out->length > 0 && out->text[out->length - 1] == ' ') out->length--;
  buf_putc(out, '\n');
}

void page_rule(Buf *out, char c, int width)
{
  buf_repeat(out, c, (size_t)width);
  buf_putc(out, '\n');
}

void page_fold_on(Buf *out, const char *text, int width, int at)
{
  Buf escaped = { 0 };
  page_put(&escaped, text);
  text_fold(out, buf_text(&escaped), width, at);
  page_end_line(out);
  buf_free(&escaped);
}

void page_fold(Buf *out, const char *lead, const char *text, int width, int indent)
{
  buf_repeat(out, ' ', (size_t)indent);
  buf_puts(out, lead);
  page_fold_on(out, text, width, indent + (int)strlen(lead));
}

int page_day_of(int minute) { return minute >= 0 ? minute / DAY_MIN : -((DAY_MIN - 1 - minute) / DAY_MIN); }

static const char *const weekdays[] = { "Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun" };
static const char *const months[] = { "Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec" };

void page_day(Buf *out, const Job *job, int day)
{
  int y, m, d;
  date_of_day(job->start_day + day, &y, &m, &d);
  buf_printf(out, "%s %04d-%02d-%02d", weekdays[date_weekday(job->start_day + day)], y, m, d);
}

void page_short_day(Buf *out, const Job *job, int day)
{
  int y, m, d;
  date_of_day(job->start_day + day, &y, &m, &d);
  buf_printf(out, "%s %d %s", weekdays[date_weekday(job->start_day + day)], d, months[m - 1]);
}

void page_time(Buf *out, int minute)
{
  int of_day = minute - page_day_of(minute) * DAY_MIN;
  buf_printf(out, "%02d:%02d", of_day / 60, of_day % 60);
}

void page_instant(Buf *out, const Job *job, int minute)
{
  page_day(out, job, page_day_of(minute));
  buf_putc(out, ' ');
  page_time(out, minute);
}

void page_span(Buf *out, const Job *job, int from, int to)
{
  page_short_day(out, job, page_day_of(from));
  buf_putc(out, ' ');
  page_time(out, from);
  if (page_day_of(to) == page_day_of(from)) {
    buf_putc(out, '-');
  } else {
    buf_puts(out, " to ");
    page_short_day(out, job, page_day_of(to));
    buf_putc(out, ' ');
  }
  page_time(out, to);
}

void page_iso(Buf *out, const Job *job, int minute)
{
  int y, m, d;
  date_of_day(job->start_day + page_day_of(minute), &y, &m, &d);
  buf_printf(out, "%04d-%02d-%02dT", y, m, d);
  page_time(out, minute);
}

void page_minutes(Buf *out, int minutes)
{
  const struct {
    int size;
    const char *unit;
  } parts[] = { { DAY_MIN, "d" }, { 60, "h" }, { 1, "min" } };
  const char *between = "";
  for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
    int count = minutes / parts[i].size;
    minutes -= count * parts[i].size;
    if (count == 0 && !(i == 2 && *between == '\0')) continue;
    buf_printf(out, "%s%d %s", between, count, parts[i].unit);
    between = " ";
  }
}
