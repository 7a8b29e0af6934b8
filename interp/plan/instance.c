#include "plan/instance.h"

#include <string.h>

#include "base/mem.h"

/* ---- calendars */

/* The instance's own copy of a calendar, one for all tasks that share it. */
static const Calendar *keep_calendar(Instance *in, Calendar *c)
{
  if (c == NULL) return NULL;
  for (int k = 0; k < in->calendar_count; k++) {
    if (!calendar_same(in->calendars[k], c)) continue;
    calendar_free(c);
    return in->calendars[k];
  }
  in->calendars = mem_grow(in->calendars, (size_t)in->calendar_count + 1, sizeof *in->calendars);
  return in->calendars[in->calendar_count++] = c;
}

/* The working time of a task depends on these calendars alone: its own, and those of what it asks for. Most tasks
 * ask for the same few sets, each of which is worked out once. */
enum { SET_MOST = 7, SETS = 64 };

typedef struct {
  int calendars[SET_MOST]; /* of the problem, PROBLEM_ALWAYS left out */
  int count;
  const Calendar *working;
} CalendarSet;

typedef struct {
  CalendarSet sets[SETS];
  int count;
} CalendarSets;

/* False: more calendars than are remembered. */
static bool calendar_set(const Problem *p, const Task *task, CalendarSet *out)
{
  *out = (CalendarSet){ .count = 0 };
  for (int k = -1; k < task->demand_count; k++) {
    int calendar = k < 0 ? task->calendar : p->resources[task->demands[k].resource].calendar;
    if (calendar == PROBLEM_ALWAYS) continue;
    if (out->count == SET_MOST) return false;
    out->calendars[out->count++] = calendar;
  }
  return true;
}

static const Calendar *working_time(Instance *in, CalendarSets *known, int task)
{
  CalendarSet set;
  bool small = calendar_set(in->problem, &in->problem->tasks[task], &set);
  for (int k = 0; small && k < known->count; k++)
    if (memcmp(known->sets[k].calendars, set.calendars, sizeof set.calendars) == 0 && known->sets[k].count == set.count)
      return known->sets[k].working;
  set.working = keep_calendar(in, problem_working_time(in->problem, task));
  if (small && known->count < SETS) known->sets[known->count++] = set;
  return set.working;
}

int instance_finish_on_calendar(const Instance *in, int task, int start)
{
  const Calendar *c = in->working[task];
  if (in->breakable[task]) return calendar_finish(c, start, in->duration[task]);
  int begin = calendar_next_fit(c, start, in->duration[task]);
  return begin == CALENDAR_NEVER ? CALENDAR_NEVER : begin + in->duration[task];
}

int instance_latest_start_on_calendar(const Instance *in, int task, int finish)
{
  const Calendar *c = in->working[task];
  if (in->breakable[task]) return calendar_latest_start(c, finish, in->duration[task]);
  return calendar_previous_fit(c, finish - in->duration[task], in->duration[task]);
}

int instance_next_on_calendar(const Instance *in, int task, int start)
{
  const Calendar *c = in->working[task];
  return in->breakable[task] ? calendar_next_open(c, start) : calendar_next_fit(c, start, in->duration[task]);
}

int instance_previous_on_calendar(const Instance *in, int task, int start)
{
  const Calendar *c = in->working[task];
  return in->breakable[task] ? calendar_previous_open(c, start)
                             : calendar_previous_fit(c, start, in->duration[task]);
}

bool pieces_next(Pieces *pieces, Interval *piece)
{
  const Calendar *c = pieces->working;
  int from = calendar_next_open(c, pieces->begin);
  if (from >= pieces->end) return false;
  int closed = c == NULL ? pieces->end : calendar_next_closed(c, from);
  *piece = (Interval){ from, closed < pieces->end ? closed : pieces->end };
  pieces->begin = closed;
  return true;
}

static void add_tasks(Instance *in)
{
  const Problem *p = in->problem;
  CalendarSets known = { .count = 0 };
  in->plain = true;
  for (int t = 0; t < p->task_count; t++) {
    const Task *task = &p->tasks[t];
    in->duration[t] = task->duration;
    in->working[t] = task->duration > 0 ? working_time(in, &known, t) : NULL;
    in->breakable[t] = task->breakable && in->working[t] != NULL;
    if (in->working[t] != NULL) in->plain = false;
    int deadline = task->deadline < in->horizon ? task->deadline : in->horizon;
    bool fixed = task->fixed_start != PROBLEM_FREE;
    int release = fixed && task->fixed_start > task->release ? task->fixed_start : task->release;
    int latest = instance_latest_start(in, t, deadline);
    if (fixed && task->fixed_start < latest) latest = instance_previous(in, t, task->fixed_start);
    in->earliest[t] = instance_next(in, t, release > 0 ? release : 0);
    in->latest[t] = latest;
  }
  in->latest[in->end] = in->horizon;
}

/* ---- edges */

static void add_edge(Instance *in, Edge edge) { in->edges[in->edge_count++] = edge; }

static void add_link(Instance *in, const Link *link, int index)
{
  int i = link->from, j = link->to, d = link->minutes;
  int span = in->duration[i];
  bool varies = in->breakable[i];
  switch (link->kind) {
  case LINK_SS_MIN: add_edge(in, (Edge){ i, j, d, EDGE_START, index }); break;
  case LINK_SS_MAX: add_edge(in, (Edge){ j, i, -d, EDGE_START, index }); break;
  case LINK_FS_MIN:
    add_edge(in, varies ? (Edge){ i, j, d, EDGE_FROM_FINISH, index } : (Edge){ i, j, d + span, EDGE_START, index });
    break;
  case LINK_FS_MAX:
    add_edge(in, varies ? (Edge){ j, i, -d, EDGE_TO_FINISH, index } : (Edge){ j, i, -d - span, EDGE_START, index });
    break;
  }
}

/* Does another task start only after this one has finished? Then the end need not wait for this one. */
static bool is_outlasted(const Instance *in, int task)
{
  for (int k = in->out_first[task]; k < in->out_first[task + 1]; k++) {
    const Edge *e = &in->edges[in->out[k]];
    bool after = e->kind == EDGE_FROM_FINISH ? e->minutes >= 0
                                             : e->kind == EDGE_START && !in->breakable[task] &&
                                                   e->minutes >= in->duration[task];
    if (after && (in->duration[task] > 0 || task < e->to)) return true;
  }
  return false;
}

/* Lists of edges by one of their ends, in the order of the edges. */
static void list_edges(const Instance *in, bool by_from, int *list, int *first)
{
  memset(first, 0, ((size_t)in->count + 1) * sizeof *first);
  for (int e = 0; e < in->edge_count; e++) first[(by_from ? in->edges[e].from : in->edges[e].to) + 1]++;
  for (int t = 0; t < in->count; t++) first[t + 1] += first[t];
  for (int e = 0; e < in->edge_count; e++) list[first[by_from ? in->edges[e].from : in->edges[e].to]++] = e;
  for (int t = in->count; t > 0; t--) first[t] = first[t - 1];
  first[0] = 0;
}

static void add_edges(Instance *in)
{
  const Problem *p = in->problem;
  size_t most = (size_t)p->link_count + (size_t)p->task_count;
  in->edges = mem_array(most, sizeof *in->edges);
  in->out = mem_array(most, sizeof *in->out);
  in->in = mem_array(most, sizeof *in->in);
  in->out_first = mem_array((size_t)in->count + 1, sizeof *in->out_first);
  in->in_first = mem_array((size_t)in->count + 1, sizeof *in->in_first);
  for (int k = 0; k < p->link_count; k++) add_link(in, &p->links[k], k);
  list_edges(in, true, in->out, in->out_first);
  for (int t = 0; t < p->task_count; t++) {
    if (p->tasks[t].absent || is_outlasted(in, t)) continue;
    Edge last = { t, in->end, in->breakable[t] ? 0 : in->duration[t],
                  in->breakable[t] ? EDGE_FROM_FINISH : EDGE_START, -1 };
    add_edge(in, last);
  }
  list_edges(in, true, in->out, in->out_first);
  list_edges(in, false, in->in, in->in_first);
}

int instance_push(const Instance *in, const Edge *e, int start)
{
  int least = start + e->minutes;
  if (e->kind == EDGE_FROM_FINISH) least = instance_finish(in, e->from, start) + e->minutes;
  if (e->kind == EDGE_TO_FINISH) least = instance_latest_start(in, e->to, start + e->minutes - 1) + 1;
  return instance_next(in, e->to, least);
}

int instance_pull(const Instance *in, const Edge *e, int start)
{
  int most = start - e->minutes;
  if (e->kind == EDGE_FROM_FINISH) most = instance_latest_start(in, e->from, start - e->minutes);
  if (e->kind == EDGE_TO_FINISH) most = instance_finish(in, e->to, start) - e->minutes;
  return instance_previous(in, e->from, most);
}

int instance_push_needs(const Instance *in, const Edge *e, int start)
{
  if (in->working[e->to] != NULL) start = instance_previous(in, e->to, start - 1) + 1;
  if (start <= CALENDAR_BEFORE + 1) return CALENDAR_BEFORE; /* no legal start is earlier: nothing is needed */
  if (e->kind == EDGE_FROM_FINISH) return instance_latest_start(in, e->from, start - e->minutes - 1) + 1;
  if (e->kind == EDGE_TO_FINISH) return instance_finish(in, e->to, start - 1) + 1 - e->minutes;
  return start - e->minutes;
}

int instance_pull_needs(const Instance *in, const Edge *e, int start)
{
  if (in->working[e->from] != NULL) start = instance_next(in, e->from, start + 1) - 1;
  if (start >= CALENDAR_NEVER - 1) return CALENDAR_NEVER;
  if (e->kind == EDGE_FROM_FINISH) return instance_finish(in, e->from, start + 1) + e->minutes - 1;
  if (e->kind == EDGE_TO_FINISH) return instance_latest_start(in, e->to, start + e->minutes);
  return start + e->minutes;
}

/* ---- resources */

typedef struct {
  uint64_t *people;
  int count;
} Unions;

static bool is_union(const Unions *u, uint64_t people)
{
  for (int k = 0; k < u->count; k++)
    if (u->people[k] == people) return true;
  return false;
}

static void add_union(Unions *u, uint64_t people)
{
  if (is_union(u, people)) return;
  u->people = mem_grow(u->people, (size_t)u->count + 1, sizeof *u->people);
  u->people[u->count++] = people;
}

/* The groups' sets and all unions of overlapping ones; the groups' own sets first. */
static Unions close_under_union(const Problem *p, int *own)
{
  Unions u = { 0 };
  for (int r = 0; r < p->resource_count; r++)
    if (p->resources[r].people != 0) add_union(&u, p->resources[r].people);
  *own = u.count;
  for (int i = 1; i < u.count; i++)
    for (int j = 0; j < i; j++)
      if (u.people[i] & u.people[j]) add_union(&u, u.people[i] | u.people[j]);
  return u;
}

/* What a task asks of the people of a set: the demands on all groups inside; of an absence, those it takes away. */
static int asked_of(const Problem *p, const Task *task, uint64_t people)
{
  if (task->absent) return __builtin_popcountll(task->absent & people);
  int sum = 0;
  for (int k = 0; k < task->demand_count; k++) {
    uint64_t group = p->resources[task->demands[k].resource].people;
    if (group != 0 && (group & ~people) == 0) sum += task->demands[k].amount;
  }
  return sum;
}

static int asked_of_resource(const Task *task, int resource)
{
  for (int k = 0; k < task->demand_count; k++)
    if (task->demands[k].resource == resource) return task->demands[k].amount;
  return 0;
}

static void add_resources(Instance *in)
{
  const Problem *p = in->problem;
  int own;
  Unions u = close_under_union(p, &own);
  int n = in->resource_count = p->resource_count + u.count - own;
  in->capacity = mem_array((size_t)n, sizeof *in->capacity);
  in->need = mem_array((size_t)in->count * (size_t)n, sizeof *in->need);
  for (int r = 0; r < n; r++) {
    uint64_t people = r < p->resource_count ? p->resources[r].people : u.people[own + r - p->resource_count];
    in->capacity[r] = people ? __builtin_popcountll(people) : p->resources[r].capacity;
    for (int t = 0; t < p->task_count; t++) {
      if (in->duration[t] == 0) continue;
      int asked = people ? asked_of(p, &p->tasks[t], people) : asked_of_resource(&p->tasks[t], r);
      if (asked > in->capacity[r]) in->hopeless = t;
      in->need[t * n + r] = asked < in->capacity[r] ? asked : in->capacity[r];
    }
  }
  mem_free(u.people);
  lanes_pack(&in->lanes, in->capacity, n, in->need, in->count);
}

/* ---- the whole */

/* Is the task an event that nothing can delay, such as a project's start? */
static bool is_undelayed(const Instance *in, int task)
{
  return in->duration[task] == 0 && in->in_first[task] == in->in_first[task + 1];
}

static bool is_forward(const Instance *in)
{
  for (int t = 0; t < in->end; t++)
    if (in->latest[t] < in->horizon - in->duration[t] && !is_undelayed(in, t)) return false;
  for (int e = 0; e < in->edge_count; e++)
    if (in->edges[e].kind == EDGE_TO_FINISH || in->edges[e].minutes < 0) return false;
  return true;
}

Instance *instance_new(const Problem *problem)
{
  Instance *in = mem_alloc(sizeof *in);
  in->problem = problem;
  in->count = problem->task_count + 1;
  in->end = problem->task_count;
  in->horizon = problem->horizon;
  in->hopeless = -1;
  size_t n = (size_t)in->count;
  in->duration = mem_array(n, sizeof *in->duration);
  in->working = mem_array(n, sizeof *in->working);
  in->breakable = mem_array(n, sizeof *in->breakable);
  in->earliest = mem_array(n, sizeof *in->earliest);
  in->latest = mem_array(n, sizeof *in->latest);
  add_tasks(in);
  add_edges(in);
  add_resources(in);
  in->forward = is_forward(in);
  return in;
}

void instance_free(Instance *in)
{
  if (in == NULL) return;
  void *blocks[] = { in->duration, in->working, in->breakable, in->earliest,  in->latest, in->edges,   in->out,
                     in->in,       in->out_first, in->in_first, in->capacity, in->need,  in->calendars };
  for (int k = 0; k < in->calendar_count; k++) calendar_free(in->calendars[k]);
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
  lanes_free(&in->lanes);
  mem_free(in);
}

Schedule *instance_schedule(const Instance *in, const int *start)
{
  Schedule *s = schedule_new(in->end);
  for (int t = 0; t < in->end; t++) {
    s->start[t] = start[t];
    s->finish[t] = instance_finish(in, t, start[t]);
    if (s->finish[t] > s->makespan && !in->problem->tasks[t].absent) s->makespan = s->finish[t];
  }
  return s;
}
