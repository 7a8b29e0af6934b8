/* report_ics.c - the schedule as a calendar (RFC 5545): an event a shift, with its work, and an event a hold
 * point. Times are local to the site ("floating"), stamps are the job's start, and identifiers depend on the job
 * alone, so that a calendar that reads a newer file replaces its events. */
#include <string.h>

#include "base/mem.h"
#include "base/text.h"
#include "model/date.h"
#include "report/page.h"
#include "report/report.h"
#include "report/say.h"
#include "report/shifts.h"
#include "report/step_words.h"

typedef struct {
  const Plan *plan;
  const char *fingerprint; /* NULL: none is told */
  Buf *out;
} Calendar;

enum { OCTETS = 75 }; /* a content line is folded at so many, RFC 5545 section 3.1 */

/* Ends a line; folds never split a character. */
static void put_line(Buf *out, const Buf *line)
{
  const char *text = buf_text(line);
  size_t used = 0;
  for (size_t at = 0, bytes; at < line->length; at += bytes) {
    int cells;
    bytes = text_next(text + at, line->length - at, &cells);
    if (used + bytes > OCTETS) {
      buf_puts(out, "\r\n ");
      used = 1;
    }
    buf_add(out, text + at, bytes);
    used += bytes;
  }
  buf_puts(out, "\r\n");
}

static void put_plain(Buf *out, const char *text)
{
  Buf line = { 0 };
  buf_puts(&line, text);
  put_line(out, &line);
  buf_free(&line);
}

/* A TEXT value: backslash, semicolon and comma escaped; line feeds in `text` stay line feeds. */
static void put_text(Buf *out, const char *name, const Buf *text)
{
  Buf line = { 0 };
  buf_printf(&line, "%s:", name);
  for (const char *c = buf_text(text); *c; c++) {
    if (*c == '\n') buf_puts(&line, "\\n");
    else if (strchr("\\;,", *c)) buf_printf(&line, "\\%c", *c);
    else buf_putc(&line, *c);
  }
  put_line(out, &line);
  buf_free(&line);
}

static void put_time(Buf *out, const char *name, const Job *job, int minute, const char *zone)
{
  int year, month, day, midnight = page_day_of(minute);
  date_of_day(job->start_day + midnight, &year, &month, &day);
  int of_day = minute - midnight * DAY_MIN;
  Buf line = { 0 };
  buf_printf(&line, "%s:%04d%02d%02dT%02d%02d00%s", name, year, month, day, of_day / 60, of_day % 60, zone);
  put_line(out, &line);
  buf_free(&line);
}

/* FNV-1a, 64 bits: names become identifiers of a fixed length. */
static uint64_t hash(uint64_t seed, const char *text)
{
  for (; *text; text++) seed = (seed ^ (unsigned char)*text) * UINT64_C(1099511628211);
  return seed;
}

static void begin_event(Buf *out, const Job *job, const char *what, const char *which, int start, int finish)
{
  Buf line = { 0 };
  uint64_t names = hash(hash(hash(UINT64_C(14695981039346656037), job->name), "/"), which);
  put_plain(out, "BEGIN:VEVENT");
  buf_printf(&line, "UID:%s-%016llx@gritwork.invalid", what, (unsigned long long)names);
  put_line(out, &line);
  put_time(out, "DTSTAMP", job, job->start_min, "Z");
  put_time(out, "DTSTART", job, start, "");
  put_time(out, "DTEND", job, finish, "");
  buf_free(&line);
}

static void end_event(const Calendar *c, const Buf *summary, const Buf *description)
{
  put_text(c->out, "SUMMARY", summary);
  put_text(c->out, "DESCRIPTION", description);
  if (c->fingerprint) {
    Buf comment = { 0 };
    buf_printf(&comment, "%s %.16s", say(LANGUAGE_EN, SAY_FINGERPRINT), c->fingerprint);
    put_text(c->out, "COMMENT", &comment);
    buf_free(&comment);
  }
  put_plain(c->out, "END:VEVENT");
}

static void add_escaped(Buf *out, const char *text) { text_escape(out, text, strlen(text)); }

/* "20:12-01:02 showroom: grind cut 40, edges (operator 1)" */
static void describe(const Plan *plan, const ShiftEntry *e, Buf *out)
{
  const Activity *a = &plan->activities[e->activity];
  const int *people = plan->bookings[e->activity].stretches[e->stretch].people;
  Buf words = { 0 };
  activity_words(plan, a, &words);
  const char *part = work_word(a, step_of(plan, a));
  if (*part && a->kind != WORK_SITE) buf_printf(&words, ", %s", part);
  if (out->length) buf_putc(out, '\n');
  page_time(out, e->start);
  buf_putc(out, '-');
  page_time(out, e->finish);
  buf_putc(out, ' ');
  add_escaped(out, plan->job->areas[a->area].name);
  buf_puts(out, ": ");
  add_escaped(out, buf_text(&words));
  for (int i = 0; people && i < a->people; i++) {
    buf_puts(out, i == 0 ? " (" : ", ");
    add_escaped(out, plan->persons[people[i]].name);
  }
  if (people) buf_putc(out, ')');
  buf_free(&words);
}

/* From the first work somebody does to the last, of one shift. */
static void shift_event(const Calendar *c, const ShiftEntry *entries, int count)
{
  const Plan *plan = c->plan;
  const ShiftEntry *first = &entries[0];
  const char *name = first->shift >= 0 ? plan->job->shifts[first->shift].name : NULL;
  if (name == NULL) name = "work";
  Buf which = { 0 }, summary = { 0 }, text = { 0 };
  int start = 0, finish = 0;
  for (int i = 0; i < count; i++) {
    describe(plan, &entries[i], &text);
    if (plan->bookings[entries[i].activity].people_count == 0) continue;
    if (finish == 0) start = entries[i].start;
    if (entries[i].finish > finish) finish = entries[i].finish;
  }
  page_day(&which, plan->job, first->day);
  buf_printf(&which, "/%s", name);
  add_escaped(&summary, plan->job->name);
  buf_puts(&summary, ": ");
  add_escaped(&summary, name);
  if (finish > 0) {
    begin_event(c->out, plan->job, "shift", buf_text(&which), start, finish);
    end_event(c, &summary, &text);
  }
  buf_free(&which);
  buf_free(&summary);
  buf_free(&text);
}

static void hold_event(const Calendar *c, int activity)
{
  const Plan *plan = c->plan;
  const Activity *a = &plan->activities[activity];
  const Booking *b = &plan->bookings[activity];
  Buf summary = { 0 }, text = { 0 };
  buf_puts(&summary, "Hold: ");
  add_escaped(&summary, plan->job->areas[a->area].name);
  buf_puts(&summary, ", ");
  add_escaped(&summary, step_of(plan, a)->name);
  buf_puts(&text, "Work stops here until somebody signs.");
  begin_event(c->out, plan->job, "hold", a->id, b->start, b->finish);
  end_event(c, &summary, &text);
  buf_free(&summary);
  buf_free(&text);
}

static void all_events(const Calendar *c)
{
  int count;
  ShiftEntry *entries = shifts_list(c->plan, &count);
  for (int from = 0, to; from < count; from = to) {
    for (to = from + 1; to < count && shifts_same(&entries[to], &entries[from]);) to++;
    shift_event(c, entries + from, to - from);
  }
  for (int i = 0; i < c->plan->activity_count; i++)
    if (c->plan->activities[i].hold) hold_event(c, i);
  mem_free(entries);
}

void report_ics_of(const Plan *plan, const char *fingerprint, Buf *out)
{
  const Calendar c = { plan, fingerprint, out };
  put_plain(out, "BEGIN:VCALENDAR");
  put_plain(out, "VERSION:2.0");
  put_plain(out, "PRODID:-//gritwork//schedule 1//EN");
  put_plain(out, "CALSCALE:GREGORIAN");
  if (fingerprint) {
    Buf line = { 0 };
    buf_printf(&line, "X-GRITWORK-FINGERPRINT:%s", fingerprint);
    put_line(out, &line);
    buf_free(&line);
  }
  if (plan->bookings) all_events(&c);
  put_plain(out, "END:VCALENDAR");
}

void report_ics(const Plan *plan, Buf *out) { report_ics_of(plan, NULL, out); }
