/* report_schedule.c - shift by shift who does what where, and how good the schedule is. */
#include <stdlib.h>
#include <string.h>

#include "base/json.h"
#include "base/mem.h"
#include "base/text.h"
#include "report/page.h"
#include "report/report.h"
#include "report/shifts.h"
#include "report/step_words.h"

enum { CLOCK = 13, AREA = 12, DOING = 24, INDENT = 2 };

/* ---- text */

static void shift_head(const Plan *plan, const ShiftEntry *e, int width, Buf *out)
{
  Buf text = { 0 };
  page_day(&text, plan->job, e->day);
  if (e->shift >= 0 && e->shift < plan->job->shift_count) {
    const Shift *shift = &plan->job->shifts[e->shift];
    buf_printf(&text, ", %s ", shift->name ? shift->name : "shift");
    page_time(&text, shift->from_min);
    buf_putc(&text, '-');
    page_time(&text, shift->until_min);
  }
  buf_putc(out, '\n');
  page_fold(out, "", buf_text(&text), width, 0);
  buf_free(&text);
}

static void doing_words(const Plan *plan, const ShiftEntry *e, Buf *out)
{
  const Activity *a = &plan->activities[e->activity];
  const Step *step = step_of(plan, a);
  const char *word = work_word(a, step);
  activity_words(plan, a, out);
  int parts = plan->bookings[e->activity].stretch_count;
  if (parts > 1 && !*word) word = "part";
  if (*word && a->kind != WORK_SITE) buf_printf(out, ", %s", word);
  if (parts > 1) buf_printf(out, " %d/%d", e->stretch + 1, parts);
  if (a->hold && e->stretch + 1 == parts) buf_puts(out, ", HOLD");
}

static void machine_words(const Plan *plan, int class, int unit, const char *lead, Buf *out)
{
  if (class < 0) return;
  const Machine *machine = &plan->job->machines[class];
  buf_printf(out, "%s%s", lead, machine->name);
  if (machine->count > 1) buf_printf(out, " no. %d", unit + 1);
}

static void who_words(const Plan *plan, const ShiftEntry *e, Buf *out)
{
  const Activity *a = &plan->activities[e->activity];
  const Stretch *stretch = &plan->bookings[e->activity].stretches[e->stretch];
  const int *people = stretch->people;
  for (int i = 0; people && i < a->people; i++)
    buf_printf(out, "%s%s", i > 0 ? ", " : "", plan->persons[people[i]].name);
  if (people == NULL) buf_puts(out, "the clock only");
  machine_words(plan, a->machine, stretch->unit, "; ", out);
  if (plan_runs_along(a))
    machine_words(plan, a->along.machine, stretch->along_unit, a->machine < 0 ? "; " : " + ", out);
}

static void clock_cell(const ShiftEntry *e, Buf *out)
{
  buf_repeat(out, ' ', INDENT);
  page_time(out, e->start);
  buf_putc(out, '-');
  page_time(out, e->finish);
  buf_repeat(out, ' ', CLOCK - 11);
}

enum { DOING_AT = INDENT + CLOCK + AREA + 1, WHO_AT = DOING_AT + DOING + 1, WHO_BELOW_AT = DOING_AT + 2,
       NARROW_AT = INDENT + 4 };

static void put_narrow(const char *area, const char *doing, const char *who, int width, Buf *out)
{
  page_fold_on(out, area, width, INDENT + CLOCK);
  page_fold(out, "", doing, width, NARROW_AT);
  page_fold(out, "", who, width, NARROW_AT);
}

/* What is done and by whom stand side by side, or below each other where there is no room for that. */
static void put_wide(const char *area, const char *doing, const char *who, int width, Buf *out)
{
  page_left(out, area, AREA);
  buf_putc(out, ' ');
  if (page_fits(doing, DOING) && page_fits(who, width - WHO_AT)) {
    page_left(out, doing, DOING + 1);
    page_fold_on(out, who, width, WHO_AT);
  } else {
    page_fold_on(out, doing, width, DOING_AT);
    page_fold(out, "", who, width, WHO_BELOW_AT);
  }
}

static void entry_row(const Plan *plan, const ShiftEntry *e, int width, Buf *out)
{
  const char *area = plan->job->areas[plan->activities[e->activity].area].name;
  Buf doing = { 0 }, who = { 0 };
  doing_words(plan, e, &doing);
  who_words(plan, e, &who);
  clock_cell(e, out);
  (width < PAGE_NARROW ? put_narrow : put_wide)(area, buf_text(&doing), buf_text(&who), width, out);
  buf_free(&doing);
  buf_free(&who);
}

static void field(Buf *out, const char *label, const Buf *text, int width)
{
  Buf lead = { 0 };
  text_left(&lead, label, 10);
  page_fold(out, buf_text(&lead), buf_text(text), width, 0);
  buf_free(&lead);
}

/* The least whole percent that covers the gap to the bound. */
static int gap_percent(const Plan *plan)
{
  long long took = plan->finish - plan->job->start_min, least = plan->lower_bound - plan->job->start_min;
  if (took <= least) return 0;
  return least <= 0 ? 100 : (int)((100 * (took - least) + least - 1) / least);
}

static void quality_words(const Plan *plan, Buf *out)
{
  if (plan->status == PLAN_PROVED_BEST || plan->finish <= plan->lower_bound) {
    buf_puts(out, "proved best: no schedule of this work finishes earlier");
    return;
  }
  buf_printf(out, "at most %d %% from best: no schedule finishes before ", gap_percent(plan));
  page_instant(out, plan->job, plan->lower_bound);
}

static void deadline_words(const Plan *plan, const Maybe *wanted, int finish, const char *area, Buf *out)
{
  int by = (int)wanted->figure.value;
  page_instant(out, plan->job, by);
  if (area) buf_printf(out, " for %s", area);
  buf_puts(out, finish <= by ? ", met with " : ", missed by ");
  page_minutes(out, abs(by - finish));
  if (finish <= by) buf_puts(out, " to spare");
}

static int area_finish(const Plan *plan, int area)
{
  int finish = plan->job->start_min;
  for (int i = 0; i < plan->activity_count; i++)
    if (plan->activities[i].area == area && plan->bookings[i].finish > finish) finish = plan->bookings[i].finish;
  return finish;
}

static void put_deadlines(const Plan *plan, int width, Buf *out)
{
  const Job *job = plan->job;
  for (int i = -1; i < job->area_count; i++) {
    const Maybe *wanted = i < 0 ? &job->finish_by : &job->areas[i].finish_by;
    if (!wanted->given) continue;
    Buf text = { 0 };
    deadline_words(plan, wanted, i < 0 ? plan->finish : area_finish(plan, i), i < 0 ? NULL : job->areas[i].name,
                   &text);
    field(out, "wanted by", &text, width);
    buf_free(&text);
  }
}

static void summary(const Plan *plan, int width, Buf *out)
{
  Buf text = { 0 };
  buf_putc(out, '\n');
  page_instant(&text, plan->job, plan->finish);
  buf_puts(&text, ", ");
  page_minutes(&text, plan->finish - plan->job->start_min);
  buf_puts(&text, " after the start");
  field(out, "finish", &text, width);
  buf_clear(&text);
  put_deadlines(plan, width, out);
  quality_words(plan, &text);
  field(out, "quality", &text, width);
  buf_free(&text);
}

static const char *no_schedule(const Plan *plan)
{
  return plan->status == PLAN_INFEASIBLE
           ? "no schedule: this work cannot be done in these hours with these people and machines"
           : "no schedule found";
}

void report_schedule_text(const Plan *plan, int width, Buf *out)
{
  page_fold(out, "SCHEDULE  ", plan->job->name, width, 0);
  page_rule(out, '=', width);
  if (plan->bookings == NULL) {
    page_fold(out, "", no_schedule(plan), width, 0);
    return;
  }
  int count;
  ShiftEntry *entries = shifts_list(plan, &count);
  for (int i = 0; i < count; i++) {
    const ShiftEntry *e = &entries[i];
    if (i == 0 || !shifts_same(e, e - 1)) shift_head(plan, e, width, out);
    entry_row(plan, e, width, out);
  }
  mem_free(entries);
  summary(plan, width, out);
}

/* ---- JSON */

static void json_instant(JsonWriter *j, const char *key, const Job *job, int minute)
{
  Buf text = { 0 };
  page_iso(&text, job, minute);
  json_text(j, key, buf_text(&text));
  buf_free(&text);
}

static void people_json(JsonWriter *j, const Plan *plan, const int *people, int count)
{
  json_array(j, "people");
  for (int i = 0; i < count; i++) json_text(j, NULL, plan->persons[people[i]].name);
  json_end(j);
}

static void booking_json(JsonWriter *j, const Plan *plan, int activity)
{
  const Activity *a = &plan->activities[activity];
  const Booking *b = &plan->bookings[activity];
  json_instant(j, "start", plan->job, b->start);
  json_instant(j, "finish", plan->job, b->finish);
  json_instant(j, "latest_start", plan->job, b->latest_start);
  json_integer(j, "slack_min", b->slack_min);
  json_array(j, "stretches");
  for (int s = 0; s < b->stretch_count; s++) {
    json_object(j, NULL);
    json_instant(j, "start", plan->job, b->stretches[s].start);
    json_instant(j, "finish", plan->job, b->stretches[s].finish);
    const int *people = b->stretches[s].people;
    people_json(j, plan, people, people ? plan->activities[activity].people : 0);
    if (a->machine >= 0) json_integer(j, "number", b->stretches[s].unit + 1);
    if (plan_runs_along(a)) json_integer(j, "along_number", b->stretches[s].along_unit + 1);
    json_end(j);
  }
  json_end(j);
  people_json(j, plan, b->people, b->people_count);
}

static void machine_json(JsonWriter *j, const Plan *plan, int machine, int unit)
{
  if (machine < 0) {
    json_null(j, "machine");
    return;
  }
  json_object(j, "machine");
  json_text(j, "class", plan->job->machines[machine].name);
  if (plan->bookings) json_integer(j, "number", unit + 1);
  json_end(j);
}

/* The step done along the way, by the same people or by others who follow. */
static void along_json(JsonWriter *j, const Plan *plan, int activity)
{
  const Activity *a = &plan->activities[activity];
  if (a->along.run_min == 0) return;
  const Recipe *recipe = &plan->job->recipes[plan->job->areas[a->area].recipe];
  json_object(j, "along");
  json_text(j, "step", recipe->steps[a->along.step].name);
  json_integer(j, "minutes", a->along.run_min);
  json_integer(j, "follow", a->along.people);
  machine_json(j, plan, a->along.machine, plan->bookings ? plan->bookings[activity].along_unit : -1);
  json_end(j);
}

static void activity_json(JsonWriter *j, const Plan *plan, int activity)
{
  const Activity *a = &plan->activities[activity];
  const Step *step = step_of(plan, a);
  json_object(j, NULL);
  json_text(j, "id", a->id);
  json_text(j, "area", plan->job->areas[a->area].name);
  json_text(j, "step", step->name);
  json_integer(j, "number", a->step + 1);
  json_text(j, "word", step_words[step->word].name);
  json_text(j, "work", work_name(a->kind));
  json_integer(j, "minutes", a->duration_min);
  json_bool(j, "attended", a->attended);
  json_bool(j, "hold", a->hold);
  if (plan->bookings) booking_json(j, plan, activity);
  machine_json(j, plan, a->machine, plan->bookings ? plan->bookings[activity].unit : -1);
  along_json(j, plan, activity);
  json_end(j);
}

/* A plan that was expanded only has no status of its own yet. */
static PlanStatus status_of(const Plan *plan)
{
  return plan->bookings || plan->status == PLAN_INFEASIBLE ? plan->status : PLAN_UNKNOWN;
}

void report_schedule_json(const Plan *plan, Buf *out)
{
  static const char *const statuses[] = { "feasible", "proved best", "infeasible", "unknown" };
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-schedule");
  json_integer(&j, "version", 1);
  json_text(&j, "job", plan->job->name);
  json_text(&j, "status", statuses[status_of(plan)]);
  json_instant(&j, "start", plan->job, plan->job->start_min);
  if (plan->bookings) {
    json_instant(&j, "finish", plan->job, plan->finish);
    json_integer(&j, "makespan_min", plan->finish - plan->job->start_min);
    json_integer(&j, "lower_bound_min", plan->lower_bound - plan->job->start_min);
  }
  json_array(&j, "activities");
  for (int i = 0; i < plan->activity_count; i++) activity_json(&j, plan, i);
  json_end(&j);
  json_end(&j);
  json_finish(&j);
}
