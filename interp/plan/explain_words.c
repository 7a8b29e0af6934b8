/* explain_words.c - what cannot hold together, each at its place, and what would free it: tried, not guessed. */
#include <string.h>

#include "model/date.h"
#include "plan/explain.h"
#include "plan/roster.h"

/* ---- in words */

static const char *day_words(const Filter *f, int day)
{
  int year, month, of_month;
  date_of_day(day, &year, &month, &of_month);
  return arena_printf(f->arena, "%04d-%02d-%02d", year, month, of_month);
}

static const char *when(const Filter *f, int minute)
{
  int of_day = minute % DAY_MIN;
  const char *day = day_words(f, f->plan->job->start_day + minute / DAY_MIN);
  return arena_printf(f->arena, "%s %02d:%02d", day, of_day / 60, of_day % 60);
}

static const char *clock_time(const Filter *f, int minute)
{
  return arena_printf(f->arena, "%02d:%02d", minute / 60 % 24, minute % 60);
}

static const char *clock_span(const Filter *f, const Shift *hours)
{
  return arena_printf(f->arena, "%s-%s", clock_time(f, hours->from_min), clock_time(f, hours->until_min));
}

static const char *list_days(const Filter *f, const Days *days)
{
  const char *text = "";
  for (int i = 0; i < days->count; i++)
    text = arena_printf(f->arena, "%s%s%s", text, i > 0 ? ", " : "", day_words(f, days->days[i]));
  return text;
}

static const char *window_words(const Filter *f, const Lag *lag)
{
  const Activity *to = &f->plan->activities[lag->to], *from = &f->plan->activities[lag->from];
  if (lag->minutes == 0)
    return arena_printf(f->arena, "%s starts at once when %s ends, and takes %d min", to->id, from->id,
                        to->duration_min);
  return arena_printf(f->arena, "%s must start at most %d min after %s %s", to->id, lag->minutes, from->id,
                      lag->kind == LAG_SS_MAX ? "starts" : "ends");
}

/* The first crew with the skill; NULL: there is none. */
static const Crew *crew_with(const Job *job, const char *skill)
{
  for (int i = 0; i < job->crew_count; i++)
    if (plan_crew_can(&job->crews[i], skill)) return &job->crews[i];
  return NULL;
}

static Span place_of(const Filter *f, const Wanted *w)
{
  const Job *job = f->plan->job;
  int i = w->index;
  switch (w->kind) {
  case DEMAND_WINDOW: return f->plan->lags[i].at;
  case DEMAND_JOB_BY: return job->finish_by.at;
  case DEMAND_AREA_BY: return job->areas[i].finish_by.at;
  case DEMAND_AREA_HOURS: return job->areas[i].hours.at;
  case DEMAND_SITE_HOURS: return job->site_hours->at;
  case DEMAND_CLOSED: return job->closed.at;
  case DEMAND_SHIFT: return job->shifts[i].at;
  case DEMAND_AWAY: return job->crews[i].away.at;
  case DEMAND_MACHINE_HOURS: return job->machines[i].hours.at;
  case DEMAND_MACHINE_AWAY: return job->machines[i].away.at;
  case DEMAND_MACHINE: return job->machines[i].at;
  case DEMAND_CIRCUITS: return job->supplies_at;
  case DEMAND_PEOPLE: break;
  }
  const Crew *crew = crew_with(job, explain_skill(f->plan, w));
  return crew ? crew->at : job->at;
}

static const char *people_words(const Filter *f, const char *skill)
{
  if (crew_with(f->plan->job, skill) == NULL) return arena_printf(f->arena, "nobody has the skill `%s`", skill);
  return arena_printf(f->arena, "at most %d with the skill `%s` are there at once",
                      roster_people_at_once(f->plan->job, skill), skill);
}

static const char *only_words(const Filter *f, const char *who, const char *may, const Shift *hours)
{
  return arena_printf(f->arena, "%s %s only %s", who, may, clock_span(f, hours));
}

static const char *by_words(const Filter *f, const char *what, const Maybe *by)
{
  return arena_printf(f->arena, "%s must be done by %s", what, when(f, (int)by->figure.value));
}

static const char *away_words(const Filter *f, const char *who, const Days *days)
{
  return arena_printf(f->arena, "%s is away on %s", who, list_days(f, days));
}

static const char *circuit_words(const Filter *f)
{
  const Job *job = f->plan->job;
  const char *list = "";
  for (int i = 0; i < job->machine_count; i++) {
    const Machine *m = &job->machines[i];
    if (!m->amps.given) continue;
    const char *count = m->count > 1 ? arena_printf(f->arena, "%d x ", m->count) : "";
    list = arena_printf(f->arena, "%s%s%s%s, %g A", list, list[0] ? "; " : "", count, m->name, m->amps.figure.value);
  }
  return arena_printf(f->arena, "the circuits do not carry all of these at the same time: %s", list);
}

static const char *demand_words(const Filter *f, const Wanted *w)
{
  const Job *job = f->plan->job;
  int i = w->index;
  switch (w->kind) {
  case DEMAND_WINDOW: return window_words(f, &f->plan->lags[i]);
  case DEMAND_JOB_BY: return by_words(f, "the job", &job->finish_by);
  case DEMAND_AREA_BY: return by_words(f, job->areas[i].name, &job->areas[i].finish_by);
  case DEMAND_AREA_HOURS: return only_words(f, job->areas[i].name, "may be worked on or wet", &job->areas[i].hours);
  case DEMAND_SITE_HOURS: return only_words(f, "the site", "is open", job->site_hours);
  case DEMAND_CLOSED: return arena_printf(f->arena, "the site is closed on %s", list_days(f, &job->closed));
  case DEMAND_SHIFT:
    return arena_printf(f->arena, "shift %s is %s", job->shifts[i].name, clock_span(f, &job->shifts[i]));
  case DEMAND_AWAY: return away_words(f, job->crews[i].name, &job->crews[i].away);
  case DEMAND_MACHINE_HOURS: return only_words(f, job->machines[i].name, "may run", &job->machines[i].hours);
  case DEMAND_MACHINE_AWAY: return away_words(f, job->machines[i].name, &job->machines[i].away);
  case DEMAND_MACHINE:
    return arena_printf(f->arena, "there %s %d of %s", job->machines[i].count == 1 ? "is" : "are",
                        job->machines[i].count, job->machines[i].name);
  case DEMAND_CIRCUITS: return circuit_words(f);
  case DEMAND_PEOPLE: break;
  }
  return people_words(f, explain_skill(f->plan, w));
}

static DiagLabel label_of(const Filter *f, const Wanted *w) { return (DiagLabel){ place_of(f, w), demand_words(f, w) }; }

/* ---- what would free it: the least of a few ways that leaves a schedule, else the demand dropped as a whole */

static int count_of_days(const Filter *f, const Wanted *w)
{
  const Job *job = f->plan->job;
  int count = w->kind == DEMAND_CLOSED ? job->closed.count
            : w->kind == DEMAND_AWAY   ? job->crews[w->index].away.count
                                       : job->machines[w->index].away.count;
  return count < EXPLAIN_MORE ? count : EXPLAIN_MORE;
}

/* Ways to ease a demand are numbered from `first` on. */
static int ways_of(const Filter *f, const Wanted *w, int *first)
{
  *first = 0;
  switch (w->kind) {
  case DEMAND_CLOSED: case DEMAND_AWAY: case DEMAND_MACHINE_AWAY: return count_of_days(f, w);
  case DEMAND_CIRCUITS:
    return f->plan->job->supply_count < EXPLAIN_MORE ? f->plan->job->supply_count : EXPLAIN_MORE;
  case DEMAND_WINDOW: case DEMAND_JOB_BY: case DEMAND_AREA_BY: return 0;
  case DEMAND_MACHINE: case DEMAND_PEOPLE: *first = 1; return EXPLAIN_MORE;
  default: *first = 1; return 2 * EXPLAIN_MORE;
  }
}

static const char *longer_words(const Filter *f, const Shift *hours, const char *what, const char *whose, int way)
{
  Shift longer = *hours;
  explain_lengthen(&longer, way);
  bool later = longer.until_min != hours->until_min;
  return arena_printf(f->arena, "%s %s %s %s", what, whose, later ? "until" : "from",
                      clock_time(f, later ? longer.until_min : longer.from_min));
}

static const char *there_words(const Filter *f, const char *who, const Days *days, int number)
{
  return arena_printf(f->arena, "%s there on %s", who, day_words(f, days->days[number]));
}

static const char *eased_words(const Filter *f, Easing e)
{
  const Wanted *w = e.wanted;
  const Job *job = f->plan->job;
  int i = w->index, n = e.amount;
  Arena *a = f->arena;
  switch (w->kind) {
  case DEMAND_MACHINE: return arena_printf(a, "%d more of %s", n, job->machines[i].name);
  case DEMAND_PEOPLE: return arena_printf(a, "%d more with the skill `%s`", n, explain_skill(f->plan, w));
  case DEMAND_SHIFT: return longer_words(f, &job->shifts[i], "shift", job->shifts[i].name, n);
  case DEMAND_AREA_HOURS: return longer_words(f, &job->areas[i].hours, "hours of", job->areas[i].name, n);
  case DEMAND_MACHINE_HOURS: return longer_words(f, &job->machines[i].hours, "hours of", job->machines[i].name, n);
  case DEMAND_SITE_HOURS: return longer_words(f, job->site_hours, "hours of", "the site", n);
  case DEMAND_CLOSED: return arena_printf(a, "the site open on %s", day_words(f, job->closed.days[n]));
  case DEMAND_AWAY: return there_words(f, job->crews[i].name, &job->crews[i].away, n);
  case DEMAND_MACHINE_AWAY: return there_words(f, job->machines[i].name, &job->machines[i].away, n);
  case DEMAND_CIRCUITS:
    return arena_printf(a, "another circuit of %g V and %g A", job->supplies[n].volts, job->supplies[n].amps);
  default: return "";
  }
}

/* How long the window is in a schedule without it. */
static int gap_of(const Lag *lag, const Schedule *s)
{
  return s->start[lag->to] - (lag->kind == LAG_SS_MAX ? s->start[lag->from] : s->finish[lag->from]);
}

static int area_finish(const Filter *f, int area, const Schedule *s)
{
  int finish = 0;
  for (int i = 0; i < f->plan->activity_count; i++)
    if (f->plan->activities[i].area == area && s->finish[i] > finish) finish = s->finish[i];
  return finish;
}

static const char *dropped_words(const Filter *f, const Wanted *w, const Schedule *s)
{
  const Job *job = f->plan->job;
  int i = w->index;
  Arena *a = f->arena;
  switch (w->kind) {
  case DEMAND_WINDOW:
    return arena_printf(a, "a window of %d min for %s", gap_of(&f->plan->lags[i], s),
                        f->plan->activities[f->plan->lags[i].to].id);
  case DEMAND_JOB_BY: return arena_printf(a, "a later finish (it can end on %s)", when(f, s->makespan));
  case DEMAND_AREA_BY:
    return arena_printf(a, "a later time for %s (it can be done on %s)", job->areas[i].name,
                        when(f, area_finish(f, i, s)));
  case DEMAND_AREA_HOURS: return arena_printf(a, "longer hours of %s", job->areas[i].name);
  case DEMAND_SITE_HOURS: return "longer hours of the site";
  case DEMAND_CLOSED: return "fewer closed days";
  case DEMAND_SHIFT: return arena_printf(a, "a longer shift %s, or one on more days", job->shifts[i].name);
  case DEMAND_AWAY: return arena_printf(a, "fewer days away for %s", job->crews[i].name);
  case DEMAND_MACHINE_HOURS: return arena_printf(a, "longer hours of %s", job->machines[i].name);
  case DEMAND_MACHINE_AWAY: return arena_printf(a, "fewer days away for %s", job->machines[i].name);
  case DEMAND_MACHINE: return arena_printf(a, "more of %s", job->machines[i].name);
  case DEMAND_CIRCUITS: return "more circuits";
  case DEMAND_PEOPLE: break;
  }
  return arena_printf(a, "more people with the skill `%s`", explain_skill(f->plan, w));
}

/* NULL: not even dropping it leaves a schedule. */
static const char *what_frees_it(Filter *f, Wanted *w)
{
  int first, ways = ways_of(f, w, &first);
  const char *words = NULL;
  w->dropped = true;
  SolveResult without = explain_solve(f, (Easing){ NULL, 0 });
  w->dropped = false;
  if (without.schedule) words = dropped_words(f, w, without.schedule);
  for (int way = first; words && way < first + ways; way++) {
    SolveResult eased = explain_solve(f, (Easing){ w, way });
    bool frees = eased.schedule != NULL;
    solve_free(&eased);
    if (!frees) continue;
    words = eased_words(f, (Easing){ w, way });
    break;
  }
  solve_free(&without);
  return words;
}

/* A dwell or drying begins by itself: that is not a thing that could give way. */
static bool is_stay(const Filter *f, const Wanted *w)
{
  if (w->kind != DEMAND_WINDOW) return false;
  WorkKind kind = f->plan->activities[f->plan->lags[w->index].to].kind;
  return f->plan->lags[w->index].minutes == 0 && (kind == WORK_DWELL || kind == WORK_REST);
}

static const char *what_frees(Filter *f)
{
  Buf text = { 0 };
  for (int i = 0; i < f->count; i++) {
    const char *words = f->wanted[i].dropped || is_stay(f, &f->wanted[i]) ? NULL : what_frees_it(f, &f->wanted[i]);
    if (words) buf_printf(&text, "%s%s", text.length ? ", or " : "", words);
  }
  const char *kept = text.length ? arena_printf(f->arena, "%s would free it", buf_text(&text)) : NULL;
  buf_free(&text);
  return kept;
}

/* ---- the finding */

static bool is_said(const Diag *diag, DiagLabel label)
{
  for (int i = 0; i < diag->label_count; i++)
    if (diag->labels[i].at.source == label.at.source && diag->labels[i].at.begin == label.at.begin &&
        strcmp(diag->labels[i].text, label.text) == 0)
      return true;
  return false;
}

static bool is_time(const Wanted *w) { return w->kind == DEMAND_JOB_BY || w->kind == DEMAND_AREA_BY; }

void explain_report(Filter *f, Diags *diags)
{
  Diag diag = { .level = DIAG_ERROR, .code = "no-schedule", .at = f->plan->job->at };
  int kept = 0, unsaid = 0;
  bool times_only = true;
  for (int i = 0; i < f->count; i++) {
    const Wanted *w = &f->wanted[i];
    if (w->dropped) continue;
    DiagLabel label = label_of(f, w);
    kept++;
    times_only = times_only && is_time(w);
    if (is_said(&diag, label)) continue;
    if (diag.label_count < DIAG_LABELS) diag.labels[diag.label_count++] = label;
    else unsaid++;
  }
  const char *message = kept == 1 ? "there is no schedule" : "there is no schedule: these cannot all hold";
  if (times_only && kept > 0) {
    diag.code = "late";
    message = "the work takes longer than the time there is, whoever does it";
  }
  diag.message = message;
  if (kept == 1) {
    diag.at = diag.labels[0].at;
    diag.message = arena_printf(f->arena, "%s: %s", message, diag.labels[0].text);
    diag.label_count = 0;
  }
  if (unsaid > 0) diag.note = arena_printf(f->arena, "%d more take part in it", unsaid);
  const char *freed = what_frees(f);
  diag.help = freed ? freed : "more than one of them has to give way";
  diags_add(diags, &diag);
}

void explain_not_found(Filter *f, Diags *diags)
{
  Diag diag = { .level = DIAG_ERROR, .code = "no-schedule", .at = f->plan->job->at };
  diag.message = "no schedule was found within the work allowed";
  for (int i = 0; i < f->count; i++) {
    Wanted *w = &f->wanted[i];
    w->dropped = is_time(w);
    if (w->dropped && diag.label_count < DIAG_LABELS) diag.labels[diag.label_count++] = label_of(f, w);
  }
  SolveResult result = explain_solve(f, (Easing){ NULL, 0 });
  if (diag.label_count > 0 && result.schedule)
    diag.note = arena_printf(f->arena, "without these times it can end on %s", when(f, result.schedule->makespan));
  diag.help = "allow more work with --effort, move the times, lengthen the shifts, or add people and machines";
  diags_add(diags, &diag);
  solve_free(&result);
}
