#include "plan/retime.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "plan/roster.h"
#include "plan/timetable.h"

enum { PUT_OFF_A_TASK = 16, FURTHER = 2 /* than the schedule may ever reach */ };

/* To a start, to a finish; to work with pauses, one of which the later work may fill; to work that somebody hands
 * over to another when a part of it is done, `minutes` of the planned ones. */
typedef enum { TIE_START, TIE_FINISH, TIE_PAUSES, TIE_PART } TieKind;

typedef struct {
  int from, minutes;
  TieKind kind;
} Tie;

/* Ties into task t: tie[first[t]] .. tie[first[t + 1] - 1]. */
typedef struct {
  Tie *tie;
  int *first;
} Ties;

struct Retiming {
  int count;
  int *order, *position; /* a task and its place in the order */
  int *release, *planned;
  bool *breakable;
  Calendar **hours; /* by task; NULL: always. Alike ones are one */
  Ties least, most;
};

/* ---- calendars */

static Calendar *shared(Retiming *r, int task, Calendar *hours)
{
  for (int i = 0; i < task; i++)
    if (calendar_same(r->hours[i], hours)) {
      calendar_free(hours);
      return r->hours[i];
    }
  return hours;
}

static bool work_the_same_hours(const Crew *a, const Crew *b)
{
  return a == b || (a->shift == b->shift && a->away.count == 0 && b->away.count == 0);
}

/* The crew whose hours all who are booked work; NULL: nobody, or people of several hours. */
static const Crew *crew_of(const Plan *plan, int activity)
{
  const Booking *b = &plan->bookings[activity];
  const Crew *crew = NULL;
  for (int i = 0; i < b->people_count; i++) {
    const Crew *theirs = &plan->job->crews[plan->persons[b->people[i]].crew];
    if (crew && !work_the_same_hours(crew, theirs)) return NULL;
    crew = theirs;
  }
  return crew;
}

static Calendar *hours_of(const Plan *plan, const Problem *problem, int activity, int days)
{
  Calendar *hours = problem_working_time(problem, activity);
  const Crew *crew = crew_of(plan, activity);
  if (crew == NULL) return hours;
  Calendar *theirs = roster_crew(plan->job, crew, days), *both = calendar_both(hours, theirs);
  calendar_free(hours);
  calendar_free(theirs);
  return both;
}

static bool owns_hours(const Retiming *r, int task)
{
  for (int i = 0; i < task; i++)
    if (r->hours[i] == r->hours[task]) return false;
  return true;
}

/* ---- who came from where */

typedef struct {
  int to;
  Tie tie;
} TieTo;

typedef struct {
  TieTo *links;
  int count, room;
} Links;

static void add_tie(Links *all, int from, int to, int minutes, TieKind kind)
{
  if (all->count == all->room) {
    all->room = all->room ? 2 * all->room : 256;
    all->links = mem_grow(all->links, (size_t)all->room, sizeof *all->links);
  }
  all->links[all->count++] = (TieTo){ to, { from, minutes, kind } };
}

static bool person_takes_part(const Plan *plan, int activity, const Stretch *s, int person, int number)
{
  (void)number;
  for (int i = 0; s->people && i < plan->activities[activity].people; i++)
    if (s->people[i] == person) return true;
  return false;
}

static bool machine_takes_part(const Plan *plan, int activity, const Stretch *s, int machine, int unit)
{
  const Activity *a = &plan->activities[activity];
  return (a->machine == machine && s->unit == unit) ||
         (plan_runs_along(a) && a->along.machine == machine && s->along_unit == unit);
}

/* Does the person or machine take part in a stretch? */
typedef bool (*TakesPart)(const Plan *plan, int activity, const Stretch *stretch, int who, int number);

typedef struct {
  const Plan *plan;
  TakesPart takes_part;
  int who, number; /* a person; a machine class and which of it */
  int *list;       /* the work of the one, in order of start */
  int count;
} Hand;

static bool takes_part_at_all(const Hand *h, int activity)
{
  const Booking *b = &h->plan->bookings[activity];
  for (int i = 0; i < b->stretch_count; i++)
    if (h->takes_part(h->plan, activity, &b->stretches[i], h->who, h->number)) return true;
  return false;
}

static bool stays_throughout(const Hand *h, int activity)
{
  const Booking *b = &h->plan->bookings[activity];
  for (int i = 0; i < b->stretch_count; i++)
    if (!h->takes_part(h->plan, activity, &b->stretches[i], h->who, h->number)) return false;
  return true;
}

/* Of work that went on after `minute`: how the one who works elsewhere then is tied to it. */
static void tie_to_part(const Hand *h, int activity, int to, int minute, Links *all)
{
  const Booking *b = &h->plan->bookings[activity];
  int done = 0, done_when_left = 0;
  bool comes_back = false;
  for (int i = 0; i < b->stretch_count; i++) {
    const Stretch *s = &b->stretches[i];
    bool there = h->takes_part(h->plan, activity, s, h->who, h->number);
    done += s->finish - s->start;
    if (there && s->finish <= minute) done_when_left = done;
    if (there && s->finish > minute) comes_back = true;
  }
  if (done_when_left == 0) return;
  if (comes_back && stays_throughout(h, activity) && stays_throughout(h, to))
    add_tie(all, activity, to, 0, TIE_PAUSES);
  else
    add_tie(all, activity, to, done_when_left, TIE_PART);
}

/* Each waits for those before it that ended by its start, but for the ones that another of those has waited for
 * already. */
static void hand_over(const Hand *h, Links *all)
{
  const Plan *plan = h->plan;
  const int *list = h->list;
  int count = h->count;
  for (int i = 1; i < count; i++) {
    int latest_start = -1;
    for (int k = i - 1; k >= 0; k--) {
      const Booking *before = &plan->bookings[list[k]];
      if (before->finish <= latest_start) continue;
      int start = plan->bookings[list[i]].start;
      if (before->finish > start) {
        tie_to_part(h, list[k], list[i], start, all);
        continue;
      }
      add_tie(all, list[k], list[i], 0, TIE_FINISH);
      if (before->start > latest_start) latest_start = before->start;
    }
  }
}

static void hand_over_all(Hand h, const int *order, Links *all)
{
  h.count = 0;
  for (int i = 0; i < h.plan->activity_count; i++)
    if (takes_part_at_all(&h, order[i])) h.list[h.count++] = order[i];
  hand_over(&h, all);
}

static void hand_over_people(const Plan *plan, const int *order, int *list, Links *all)
{
  for (int p = 0; p < plan->person_count; p++)
    hand_over_all((Hand){ plan, person_takes_part, p, 0, list, 0 }, order, all);
}

static void hand_over_machines(const Plan *plan, const int *order, int *list, Links *all)
{
  for (int m = 0; m < plan->job->machine_count; m++)
    for (int unit = 0; unit < plan->job->machines[m].count; unit++)
      hand_over_all((Hand){ plan, machine_takes_part, m, unit, list, 0 }, order, all);
}

/* ---- order: by start in the schedule, what waits after what it waits for */

static void take_lags(const Problem *p, Links *least, Links *most)
{
  for (int i = 0; i < p->link_count; i++) {
    const Link *link = &p->links[i];
    bool from_start = link->kind == LINK_SS_MIN || link->kind == LINK_SS_MAX;
    bool is_least = link->kind == LINK_SS_MIN || link->kind == LINK_FS_MIN;
    add_tie(is_least ? least : most, link->from, link->to, link->minutes, from_start ? TIE_START : TIE_FINISH);
  }
}

static bool comes_before(const Plan *plan, int a, int b)
{
  const Booking *x = &plan->bookings[a], *y = &plan->bookings[b];
  return x->start != y->start ? x->start < y->start : x->finish != y->finish ? x->finish < y->finish : a < b;
}

static void sort_by_start(const Plan *plan, int *order)
{
  for (int i = 0; i < plan->activity_count; i++) {
    int k = i;
    for (; k > 0 && comes_before(plan, i, order[k - 1]); k--) order[k] = order[k - 1];
    order[k] = i;
  }
}

/* Takes, again and again, the first of `sorted` that nothing left in it ties down. */
static void put_in_order(Retiming *r, const int *sorted, const Links *least)
{
  int *waits = mem_array((size_t)r->count, sizeof *waits);
  bool *taken = mem_array((size_t)r->count, sizeof *taken);
  for (int i = 0; i < least->count; i++) waits[least->links[i].to]++;
  for (int place = 0; place < r->count; place++) {
    int k = 0;
    while (k < r->count - 1 && (taken[sorted[k]] || waits[sorted[k]] > 0)) k++;
    r->order[place] = sorted[k];
    r->position[sorted[k]] = place;
    taken[sorted[k]] = true;
    for (int i = 0; i < least->count; i++)
      if (least->links[i].tie.from == sorted[k]) waits[least->links[i].to]--;
  }
  mem_free(waits);
  mem_free(taken);
}

static Ties gather(const Retiming *r, Links *links)
{
  Ties ties = { mem_array((size_t)links->count, sizeof *ties.tie), mem_array((size_t)r->count + 1, sizeof(int)) };
  int n = 0;
  for (int task = 0; task < r->count; task++) {
    ties.first[task] = n;
    for (int i = 0; i < links->count; i++)
      if (links->links[i].to == task) ties.tie[n++] = links->links[i].tie;
  }
  ties.first[r->count] = n;
  mem_free(links->links);
  return ties;
}

Retiming *retiming_new(const Plan *plan)
{
  int days = FURTHER * timetable_days(plan, plan->job);
  Problem *problem = timetable_problem(&(Timetable){ .plan = plan, .job = plan->job, .days = days });
  Retiming *r = mem_alloc(sizeof *r);
  size_t count = (size_t)plan->activity_count;
  r->count = plan->activity_count;
  r->order = mem_array(count, sizeof *r->order);
  r->position = mem_array(count, sizeof *r->position);
  r->release = mem_array(count, sizeof *r->release);
  r->planned = mem_array(count, sizeof *r->planned);
  r->breakable = mem_array(count, sizeof *r->breakable);
  r->hours = mem_array(count, sizeof *r->hours);
  for (int i = 0; i < r->count; i++) {
    r->release[i] = problem->tasks[i].release;
    r->planned[i] = problem->tasks[i].duration;
    r->breakable[i] = problem->tasks[i].breakable;
    r->hours[i] = shared(r, i, hours_of(plan, problem, i, days));
  }
  int *sorted = mem_array(count, sizeof *sorted), *list = mem_array(count, sizeof *list);
  Links least = { 0 }, most = { 0 };
  sort_by_start(plan, sorted);
  take_lags(problem, &least, &most);
  hand_over_people(plan, sorted, list, &least);
  hand_over_machines(plan, sorted, list, &least);
  put_in_order(r, sorted, &least);
  r->least = gather(r, &least);
  r->most = gather(r, &most);
  mem_free(sorted);
  mem_free(list);
  problem_free(problem);
  return r;
}

void retiming_free(Retiming *r)
{
  if (r == NULL) return;
  for (int i = r->count - 1; i >= 0; i--)
    if (owns_hours(r, i)) calendar_free(r->hours[i]);
  mem_free(r->order);
  mem_free(r->position);
  mem_free(r->release);
  mem_free(r->planned);
  mem_free(r->breakable);
  mem_free(r->hours);
  mem_free(r->least.tie);
  mem_free(r->least.first);
  mem_free(r->most.tie);
  mem_free(r->most.first);
  mem_free(r);
}

/* Releases, then the pieces of their hours that the activities began in last. */
int *retiming_scratch(const Retiming *r) { return mem_array(2 * (size_t)r->count, sizeof(int)); }

int retiming_piece(const Retiming *r, const int *scratch, int activity) { return scratch[r->count + activity]; }

const Calendar *retiming_hours(const Retiming *r, int activity) { return r->hours[activity]; }

/* ---- one run */

typedef struct {
  const Retiming *r;
  const int *minutes;
  int *release, *piece, *start, *finish;
  bool kept;
} Run;

/* The piece of a task's work at or after its n-th; false past the last. */
static bool nth_piece(const Run *run, int task, int n, Interval *out)
{
  const Calendar *hours = run->r->hours[task];
  *out = (Interval){ run->start[task], run->finish[task] };
  if (hours == NULL) return n == 0;
  int piece = run->piece[task] + n;
  if (piece >= (int)hours->count || hours->open[piece].begin >= run->finish[task]) return false;
  if (n > 0) out->begin = hours->open[piece].begin;
  if (hours->open[piece].end < out->end) out->end = hours->open[piece].end;
  return true;
}

/* When so many of the planned minutes, or as large a part of the minutes that there are now, are done. */
static int when_part_is_done(const Run *run, int task, int planned_min)
{
  Interval piece;
  int left = (int)((int64_t)planned_min * run->minutes[task] / run->r->planned[task]);
  for (int n = 0; nth_piece(run, task, n, &piece); n++) {
    if (piece.end - piece.begin >= left) return piece.begin + left;
    left -= piece.end - piece.begin;
  }
  return run->finish[task];
}

static int anchor(const Run *run, const Tie *tie)
{
  switch (tie->kind) {
  case TIE_FINISH: return run->finish[tie->from] + tie->minutes;
  case TIE_PART: return when_part_is_done(run, tie->from, tie->minutes);
  default: return run->start[tie->from] + tie->minutes;
  }
}

/* The first piece that ends after the minute: looked for where it was last, since it moves little from run to
 * run. */
static int piece_after(const Calendar *hours, int piece, int minute)
{
  while (piece > 0 && hours->open[piece - 1].end > minute) piece--;
  while (piece < (int)hours->count && hours->open[piece].end <= minute) piece++;
  return piece;
}

static int piece_that_fits(const Calendar *hours, int piece, int earliest, int minutes)
{
  for (; piece < (int)hours->count; piece++) {
    int from = hours->open[piece].begin > earliest ? hours->open[piece].begin : earliest;
    if (hours->open[piece].end - from >= minutes) break;
  }
  return piece;
}

static void work(Run *run, int task, int earliest, int minutes)
{
  const Calendar *hours = run->r->hours[task];
  int piece = piece_after(hours, run->piece[task], earliest);
  if (!run->r->breakable[task]) {
    int fitting = piece_that_fits(hours, piece, earliest, minutes);
    if (fitting < (int)hours->count) piece = fitting;
    else run->kept = false;
  }
  run->piece[task] = piece;
  run->start[task] = run->finish[task] = CALENDAR_NEVER;
  if (piece == (int)hours->count) {
    run->kept = false;
    return;
  }
  int at = hours->open[piece].begin > earliest ? hours->open[piece].begin : earliest;
  run->start[task] = at;
  while (piece < (int)hours->count && hours->open[piece].end - at < minutes) {
    minutes -= hours->open[piece++].end - at;
    at = piece < (int)hours->count ? hours->open[piece].begin : CALENDAR_NEVER;
  }
  run->finish[task] = piece < (int)hours->count ? at + minutes : CALENDAR_NEVER;
}

/* The end of the first piece of `other` in which `task` works too; -1: they keep clear of each other. */
static int end_of_clash(const Run *run, int task, int other)
{
  Interval mine, theirs;
  for (int n = 0; nth_piece(run, other, n, &theirs); n++)
    for (int k = 0; nth_piece(run, task, k, &mine); k++)
      if (mine.begin < theirs.end && theirs.begin < mine.end) return theirs.end;
  return -1;
}

static int clear_of_pauses(const Run *run, int task)
{
  const Retiming *r = run->r;
  for (int i = r->least.first[task]; i < r->least.first[task + 1]; i++) {
    if (r->least.tie[i].kind != TIE_PAUSES) continue;
    int end = end_of_clash(run, task, r->least.tie[i].from);
    if (end >= 0) return end;
  }
  return -1;
}

static void place(Run *run, int task)
{
  const Retiming *r = run->r;
  int earliest = run->release[task], minutes = run->minutes[task];
  for (int i = r->least.first[task]; i < r->least.first[task + 1]; i++) {
    int at = anchor(run, &r->least.tie[i]);
    if (at > earliest) earliest = at;
  }
  for (; earliest >= 0; earliest = minutes > 0 ? clear_of_pauses(run, task) : -1) {
    run->start[task] = earliest;
    run->finish[task] = earliest + minutes;
    if (minutes > 0 && r->hours[task]) work(run, task, earliest, minutes);
  }
}

/* The least start with which the task finishes at `finish` or later. */
static int start_for_finish(const Run *run, int task, int finish)
{
  const Calendar *hours = run->r->hours[task];
  int minutes = run->minutes[task];
  if (minutes == 0 || hours == NULL || !run->r->breakable[task]) return finish - minutes;
  int start = calendar_latest_start(hours, finish, minutes);
  if (start == CALENDAR_BEFORE) return run->start[task];
  return calendar_finish(hours, start, minutes) >= finish ? start : calendar_next_open(hours, start + 1);
}

/* The place in the order to go back to when `task` came too late for work before it; -1: it did not. */
static int put_off(Run *run, int task)
{
  const Retiming *r = run->r;
  int back_to = -1;
  for (int i = r->most.first[task]; i < r->most.first[task + 1]; i++) {
    const Tie *tie = &r->most.tie[i];
    if (run->start[task] <= anchor(run, tie) || r->position[tie->from] > r->position[task]) continue;
    int need = run->start[task] - tie->minutes;
    run->release[tie->from] = tie->kind == TIE_START ? need : start_for_finish(run, tie->from, need);
    if (back_to < 0 || r->position[tie->from] < back_to) back_to = r->position[tie->from];
  }
  return back_to;
}

bool retiming_run(const Retiming *r, const int *minutes, int *scratch, int *start, int *finish)
{
  Run run = { .r = r, .minutes = minutes, .release = scratch, .piece = scratch + r->count, .start = start,
              .finish = finish, .kept = true };
  memcpy(scratch, r->release, (size_t)r->count * sizeof *scratch);
  int left = PUT_OFF_A_TASK * r->count;
  for (int i = 0; i < r->count; i++) {
    place(&run, r->order[i]);
    int back_to = put_off(&run, r->order[i]);
    if (back_to < 0) continue;
    if (left-- > 0) i = back_to - 1;
    else run.kept = false;
  }
  return run.kept;
}
