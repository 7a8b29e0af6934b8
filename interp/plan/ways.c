#include "plan/ways.h"

#include "base/mem.h"

enum { LONG_AGO = -(1 << 28) };

static bool order_topologically(Ways *w)
{
  const Instance *in = w->in;
  int *waiting = mem_array((size_t)in->count, sizeof *waiting), *order = w->left.topological, placed = 0;
  for (int t = 0; t < w->tasks; t++) {
    waiting[t] = in->in_first[t + 1] - in->in_first[t];
    if (waiting[t] == 0) order[placed++] = t;
  }
  for (int at = 0; at < placed; at++) {
    int task = order[at];
    for (int k = in->out_first[task]; k < in->out_first[task + 1]; k++) {
      int to = in->edges[in->out[k]].to;
      if (to != in->end && --waiting[to] == 0) order[placed++] = to;
    }
  }
  mem_free(waiting);
  for (int k = 0; k < placed; k++) w->right.topological[k] = order[placed - 1 - k];
  return placed == w->tasks;
}

/* What must begin before the task: to the left its predecessors, to the right its successors. */
static int neighbours(const Ways *w, const Way *way, int task, Before *out)
{
  const Instance *in = w->in;
  bool left = way == &w->left;
  const int *first = left ? in->in_first : in->out_first, *edges = left ? in->in : in->out;
  int count = 0;
  for (int k = first[task]; k < first[task + 1]; k++) {
    const Edge *e = &in->edges[edges[k]];
    if (e->to == in->end) continue;
    out[count++] = left ? (Before){ e->from, e->minutes }
                        : (Before){ e->to, e->minutes + in->duration[e->to] - in->duration[e->from] };
  }
  return count;
}

/* `spare` has room for all edges. Returns the end of `more`. */
static int describe(const Ways *w, Way *way, int task, int more, Before *spare)
{
  const Instance *in = w->in;
  WayTask *t = &way->tasks[task];
  *t = (WayTask){ .more = more, .more_end = more, .duration = in->duration[task] };
  t->earliest = way == &w->left ? in->earliest[task] : 0;
  t->demand = (uint32_t)*lanes_demand(&in->lanes, task);
  int count = neighbours(w, way, task, spare);
  for (int k = 0; k < WAY_BEFORE; k++) t->before[k] = k < count ? spare[k] : (Before){ task, LONG_AGO };
  for (int k = WAY_BEFORE; k < count; k++) way->more[t->more_end++] = spare[k];
  return t->more_end;
}

static void raise_rest(const Way *way, Before before, int rest)
{
  int *at = &way->tasks[before.task].rest;
  if (before.minutes > LONG_AGO && *at < before.minutes + rest) *at = before.minutes + rest;
}

static void describe_all(const Ways *w, Way *way)
{
  Before *spare = mem_array((size_t)w->in->edge_count, sizeof *spare);
  for (int t = 0, more = 0; t < w->tasks; t++) more = describe(w, way, t, more, spare);
  for (int k = w->tasks - 1; k >= 0; k--) {
    WayTask *t = &way->tasks[way->topological[k]];
    if (t->rest < t->duration) t->rest = t->duration;
    for (int b = 0; b < WAY_BEFORE; b++) raise_rest(way, t->before[b], t->rest);
    for (int b = t->more; b < t->more_end; b++) raise_rest(way, way->more[b], t->rest);
  }
  mem_free(spare);
}

/* A task begins when it may, or when something placed before it ends or lets it begin: each adds no more than its
 * own duration or its longest lag. -1: more than any horizon. */
static int most_minutes(const Instance *in)
{
  int64_t minutes = 0, latest_release = 0;
  for (int t = 0; t < in->end; t++) {
    int longest = in->duration[t];
    for (int k = in->out_first[t]; k < in->out_first[t + 1]; k++)
      if (in->edges[in->out[k]].minutes > longest) longest = in->edges[in->out[k]].minutes;
    minutes += longest;
    if (in->earliest[t] > latest_release) latest_release = in->earliest[t];
  }
  minutes += latest_release;
  return minutes < PROBLEM_LATEST ? (int)minutes : -1;
}

static Way way_new(const Instance *in)
{
  size_t n = (size_t)in->count;
  return (Way){ .tasks = mem_array(n, sizeof(WayTask)), .more = mem_array((size_t)in->edge_count, sizeof(Before)),
                .topological = mem_array(n, sizeof(int)) };
}

static void way_free(Way *way)
{
  mem_free(way->tasks);
  mem_free(way->more);
  mem_free(way->topological);
}

Ways *ways_new(const Instance *in)
{
  int minutes = most_minutes(in);
  if (!in->plain || !in->forward || in->hopeless >= 0 || minutes < 0) return NULL;
  Ways *w = mem_alloc(sizeof *w);
  *w = (Ways){ .in = in, .tasks = in->end, .minutes = minutes, .left = way_new(in), .right = way_new(in) };
  if (!order_topologically(w)) {
    ways_free(w);
    return NULL;
  }
  describe_all(w, &w->left);
  describe_all(w, &w->right);
  return w;
}

void ways_free(Ways *w)
{
  if (w == NULL) return;
  way_free(&w->left);
  way_free(&w->right);
  mem_free(w);
}
