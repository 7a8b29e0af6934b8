#include "report/step_words.h"

#include <math.h>
#include <string.h>

#include "cost/show.h"
#include "report/page.h"

const Step *step_of(const Plan *plan, const Activity *activity)
{
  const Job *job = plan->job;
  return &job->recipes[job->areas[activity->area].recipe].steps[activity->step];
}

const Machine *step_machine(const Plan *plan, int area, int step)
{
  for (int i = 0; i < plan->activity_count; i++) {
    const Activity *a = &plan->activities[i];
    if (a->area == area && a->step == step && a->kind == WORK_FIELD && a->machine >= 0)
      return &plan->job->machines[a->machine];
  }
  return NULL;
}

static Figure own_or(Figure own, const Maybe *other) { return own.why == 0 && other ? other->figure : own; }

Figure step_overlap(const Step *step, const Machine *machine)
{
  return own_or(step->overlap_m, machine ? &machine->overlap_m : NULL);
}

Figure step_travel(const Step *step, const Machine *machine)
{
  return own_or(step->travel_m_per_min, machine ? &machine->travel_m_per_min : NULL);
}

void step_tool(const Step *step, Language language, Buf *out)
{
  if (step->bond) buf_puts(out, say_word(language, step->bond));
  if (step->grit > 0) {
    if (step->bond) buf_putc(out, ' ');
    show_number(out, step->grit, 2);
  } else if (step->with) {
    buf_puts(out, say_word(language, step->with));
  } else if (step->measure) {
    buf_puts(out, say_word(language, step->measure));
  }
}

void step_length(Figure figure, bool metric, Buf *out)
{
  if (figure.why != 0 || figure.value > 0) show_quantity(out, figure.value, "m", KIND_LENGTH, metric);
}

void step_speed(Figure figure, bool metric, Buf *out)
{
  if (figure.value > 0) show_quantity(out, figure.value, "m/min", KIND_SPEED, metric);
}

typedef void (*Putter)(double value, bool metric, Buf *out);

static void put_band(const Band *band, bool metric, Putter put, Language language, Buf *out)
{
  if (!band->has_low && !band->has_high) return;
  if (!band->has_low) buf_printf(out, "%s ", say(language, SAY_AT_MOST));
  else if (!band->has_high) buf_printf(out, "%s ", say(language, SAY_AT_LEAST));
  if (band->has_low) put(band->low.value, metric, out);
  if (band->has_low && band->has_high && band->low.value != band->high.value)
    buf_printf(out, " %s ", say(language, SAY_TO));
  if (band->has_high && !(band->has_low && band->low.value == band->high.value)) put(band->high.value, metric, out);
}

static void put_minutes(double value, bool metric, Buf *out)
{
  (void)metric;
  page_minutes(out, (int)ceil(value - 1e-9));
}

static void put_spread(double value, bool metric, Buf *out)
{
  show_quantity(out, value, "m2/L", KIND_SPREAD, metric);
}

static void put_number(double value, bool metric, Buf *out)
{
  (void)metric;
  show_number(out, value, 4);
}

void step_minutes_band(const Band *band, Language language, Buf *out)
{
  put_band(band, false, put_minutes, language, out);
}

void step_spread_band(const Band *band, bool metric, Language language, Buf *out)
{
  put_band(band, metric, put_spread, language, out);
}

void step_want_band(const Band *band, Language language, Buf *out)
{
  put_band(band, false, put_number, language, out);
}

static const struct {
  const char *name, *beside;
} works[WORK_KINDS] = {
  [WORK_FIELD] = { "field", "" },   [WORK_EDGES] = { "edges", "edges" }, [WORK_SURFACE] = { "surface", "" },
  [WORK_APPLY] = { "apply", "" },   [WORK_DWELL] = { "dwell", "dwell" }, [WORK_REST] = { "rest", "dry" },
  [WORK_READ] = { "read", "" },     [WORK_SITE] = { "site", "" },
};

const char *work_name(WorkKind kind) { return works[kind].name; }

const char *work_word(const Activity *activity, const Step *step)
{
  if (activity->kind == WORK_SITE) return activity->part;
  if (activity->kind == WORK_REST && step->word == STEP_WAIT) return "";
  if (activity->kind == WORK_DWELL && activity->attended) return "keep wet";
  bool in_parts = activity->kind == WORK_APPLY || activity->kind == WORK_SURFACE; /* "coat 2", "bay 1" */
  if (in_parts && activity->part && strcmp(activity->part, "coat") != 0) return activity->part;
  return works[activity->kind].beside;
}

void activity_words(const Plan *plan, const Activity *activity, Buf *out)
{
  const Step *step = step_of(plan, activity);
  if (activity->kind == WORK_SITE) {
    buf_puts(out, activity->part);
    return;
  }
  buf_printf(out, "%s %s", step_words[step->word].name, step->name);
  if (activity->along.run_min > 0) buf_puts(out, ", collect along");
}
