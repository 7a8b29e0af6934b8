#include "plan/temporal.h"

#include <string.h>

#include "base/mem.h"

void contradiction_free(Contradiction *c)
{
  mem_free(c->links);
  mem_free(c->tasks);
  *c = (Contradiction){ 0 };
}

/* A ring of tasks whose bound moved, each at most once. */
typedef struct {
  int *ring, head, count, room;
  bool *queued;
} Queue;

static Queue queue_new(int tasks)
{
  Queue q = { .room = tasks };
  q.ring = mem_array((size_t)tasks, sizeof *q.ring);
  q.queued = mem_array((size_t)tasks, sizeof *q.queued);
  return q;
}

static void queue_free(Queue *q)
{
  mem_free(q->ring);
  mem_free(q->queued);
}

static void queue_put(Queue *q, int task)
{
  if (q->queued[task]) return;
  q->queued[task] = true;
  q->ring[(q->head + q->count++) % q->room] = task;
}

static int queue_take(Queue *q)
{
  int task = q->ring[q->head];
  q->head = (q->head + 1) % q->room;
  q->count--;
  q->queued[task] = false;
  return task;
}

/* ---- contradictions */

/* The chain of parent edges that ends in `task`, appended to the links from its far end on. Stops at a task reached
 * before (a cycle), or at one whose bound is its own; returns that task. */
static int trace(const Instance *in, const int *parent, bool forward, int task, Contradiction *why)
{
  int *chain = mem_array((size_t)in->count, sizeof *chain);
  bool *seen = mem_array((size_t)in->count, sizeof *seen);
  int length = 0;
  while (parent[task] >= 0 && !seen[task]) {
    seen[task] = true;
    chain[length++] = parent[task];
    task = forward ? in->edges[parent[task]].from : in->edges[parent[task]].to;
  }
  why->links = mem_grow(why->links, (size_t)(why->link_count + length), sizeof *why->links);
  for (int k = 0; k < length; k++) {
    int link = in->edges[chain[forward ? length - 1 - k : k]].link;
    if (link >= 0) why->links[why->link_count++] = link;
  }
  mem_free(chain);
  mem_free(seen);
  return task;
}

static void blame_task(const Instance *in, Contradiction *why, int task)
{
  for (int k = 0; k < why->task_count; k++)
    if (why->tasks[k] == task) return;
  if (task == in->end) return;
  why->tasks = mem_grow(why->tasks, (size_t)why->task_count + 1, sizeof *why->tasks);
  why->tasks[why->task_count++] = task;
}

/* A task on a cycle of parents, or -1. */
static int parent_cycle(const Instance *in, const int *parent)
{
  int *visit = mem_array((size_t)in->count, sizeof *visit);
  int found = -1;
  for (int t = 0; t < in->count && found < 0; t++) {
    int at = t;
    while (visit[at] == 0 && parent[at] >= 0) {
      visit[at] = t + 1;
      at = in->edges[parent[at]].from;
    }
    if (parent[at] >= 0 && visit[at] == t + 1) found = at;
  }
  mem_free(visit);
  return found;
}

/* The least distance an edge keeps between two starts, calendars or not; false: none. */
static bool least_distance(const Instance *in, const Edge *e, int64_t *minutes)
{
  *minutes = e->minutes + (e->kind == EDGE_FROM_FINISH ? in->duration[e->from] : 0);
  return e->kind != EDGE_TO_FINISH;
}

bool temporal_find_cycle(const Instance *in, Contradiction *why)
{
  int64_t *distance = mem_array((size_t)in->count, sizeof *distance);
  int *parent = mem_array((size_t)in->count, sizeof *parent);
  Queue q = queue_new(in->count);
  int on_cycle = -1, moves = 0;
  for (int t = 0; t < in->count; t++) {
    parent[t] = -1;
    queue_put(&q, t);
  }
  while (q.count > 0 && on_cycle < 0) {
    int task = queue_take(&q);
    for (int k = in->out_first[task]; k < in->out_first[task + 1]; k++) {
      const Edge *e = &in->edges[in->out[k]];
      int64_t minutes;
      if (!least_distance(in, e, &minutes) || distance[task] + minutes <= distance[e->to]) continue;
      distance[e->to] = distance[task] + minutes;
      parent[e->to] = in->out[k];
      queue_put(&q, e->to);
      moves++;
    }
    if (moves < in->count) continue;
    moves = 0;
    on_cycle = parent_cycle(in, parent);
  }
  if (on_cycle >= 0 && why != NULL) trace(in, parent, true, on_cycle, why);
  queue_free(&q);
  mem_free(distance);
  mem_free(parent);
  return on_cycle >= 0;
}

/* ---- windows */

typedef struct {
  int task, was;
  bool latest; /* its latest start moved; else its earliest */
} Move;

struct Windows {
  const Instance *in;
  int *earliest, *latest;
  int *parent_early, *parent_late; /* the edge that set the bound; -1: the task's own window */
  Queue early, late;
  Move *moves;
  int move_count, move_room;
  int64_t work;
};

Windows *windows_new(const Instance *in)
{
  Windows *w = mem_alloc(sizeof *w);
  w->in = in;
  int **arrays[] = { &w->earliest, &w->latest, &w->parent_early, &w->parent_late };
  for (size_t k = 0; k < sizeof arrays / sizeof *arrays; k++)
    *arrays[k] = mem_array((size_t)in->count, sizeof(int));
  w->early = queue_new(in->count);
  w->late = queue_new(in->count);
  return w;
}

void windows_free(Windows *w)
{
  if (w == NULL) return;
  int *arrays[] = { w->earliest, w->latest, w->parent_early, w->parent_late };
  for (size_t k = 0; k < sizeof arrays / sizeof *arrays; k++) mem_free(arrays[k]);
  queue_free(&w->early);
  queue_free(&w->late);
  mem_free(w->moves);
  mem_free(w);
}

static void empty_queues(Windows *w)
{
  while (w->early.count > 0) queue_take(&w->early);
  while (w->late.count > 0) queue_take(&w->late);
}

void windows_reset(Windows *w, const int *earliest, const int *latest)
{
  size_t bytes = (size_t)w->in->count * sizeof(int);
  memcpy(w->earliest, earliest, bytes);
  memcpy(w->latest, latest, bytes);
  memset(w->parent_early, -1, bytes);
  memset(w->parent_late, -1, bytes);
  empty_queues(w);
  w->move_count = 0;
}

const int *windows_earliest(const Windows *w) { return w->earliest; }
const int *windows_latest(const Windows *w) { return w->latest; }
int64_t windows_work(const Windows *w) { return w->work; }

/* ---- moves, and back */

static void note_move(Windows *w, int task, bool latest)
{
  if (w->move_count == w->move_room) {
    w->move_room = w->move_room ? 2 * w->move_room : 256;
    w->moves = mem_grow(w->moves, (size_t)w->move_room, sizeof *w->moves);
  }
  w->moves[w->move_count++] = (Move){ task, latest ? w->latest[task] : w->earliest[task], latest };
}

static void set_earliest(Windows *w, int task, int least, int parent)
{
  note_move(w, task, false);
  w->earliest[task] = least;
  w->parent_early[task] = parent;
}

static void set_latest(Windows *w, int task, int most, int parent)
{
  note_move(w, task, true);
  w->latest[task] = most;
  w->parent_late[task] = parent;
}

int windows_mark(const Windows *w) { return w->move_count; }
int windows_moved(const Windows *w, int move) { return w->moves[move].task; }

void windows_back(Windows *w, int mark)
{
  empty_queues(w);
  while (w->move_count > mark) {
    const Move *m = &w->moves[--w->move_count];
    (m->latest ? w->latest : w->earliest)[m->task] = m->was;
  }
}

void windows_raise(Windows *w, int task, int least)
{
  least = instance_next(w->in, task, least);
  if (least <= w->earliest[task]) return;
  set_earliest(w, task, least, -1);
  queue_put(&w->early, task);
}

void windows_lower(Windows *w, int task, int most)
{
  most = instance_previous(w->in, task, most);
  if (most >= w->latest[task]) return;
  set_latest(w, task, most, -1);
  queue_put(&w->late, task);
}

/* Pushes along the edges out of a task; the task whose window closed, or -1. */
static int push_from(Windows *w, int task)
{
  const Instance *in = w->in;
  for (int k = in->out_first[task]; k < in->out_first[task + 1]; k++) {
    const Edge *e = &in->edges[in->out[k]];
    int least = instance_push(in, e, w->earliest[task]);
    w->work++;
    if (least <= w->earliest[e->to]) continue;
    set_earliest(w, e->to, least, in->out[k]);
    if (least > w->latest[e->to]) return e->to;
    queue_put(&w->early, e->to);
  }
  return -1;
}

static int pull_from(Windows *w, int task)
{
  const Instance *in = w->in;
  for (int k = in->in_first[task]; k < in->in_first[task + 1]; k++) {
    const Edge *e = &in->edges[in->in[k]];
    int most = instance_pull(in, e, w->latest[task]);
    w->work++;
    if (most >= w->latest[e->from]) continue;
    set_latest(w, e->from, most, in->in[k]);
    if (most < w->earliest[e->from]) return e->from;
    queue_put(&w->late, e->from);
  }
  return -1;
}

/* A moved bound may have closed its own task's window before anything spreads. */
static int first_closed(const Windows *w, const Queue *moved)
{
  for (int k = 0; k < moved->count; k++) {
    int task = moved->ring[(moved->head + k) % moved->room];
    if (w->earliest[task] > w->latest[task]) return task;
  }
  return -1;
}

int windows_settle(Windows *w)
{
  int closed = first_closed(w, &w->early);
  if (closed < 0) closed = first_closed(w, &w->late);
  while (closed < 0 && (w->early.count > 0 || w->late.count > 0))
    closed = w->early.count > 0 ? push_from(w, queue_take(&w->early)) : pull_from(w, queue_take(&w->late));
  return closed;
}

void windows_explain(const Windows *w, int closed, Contradiction *why)
{
  blame_task(w->in, why, trace(w->in, w->parent_early, true, closed, why));
  blame_task(w->in, why, trace(w->in, w->parent_late, false, closed, why));
}

bool temporal_tighten(const Instance *in, int *earliest, int *latest, Contradiction *why)
{
  Windows *w = windows_new(in);
  windows_reset(w, earliest, latest);
  for (int task = 0; task < in->count; task++) {
    queue_put(&w->early, task);
    queue_put(&w->late, task);
  }
  int closed = windows_settle(w);
  if (closed >= 0 && why != NULL) windows_explain(w, closed, why);
  if (closed < 0) {
    memcpy(earliest, w->earliest, (size_t)in->count * sizeof *earliest);
    memcpy(latest, w->latest, (size_t)in->count * sizeof *latest);
  }
  windows_free(w);
  return closed < 0;
}
