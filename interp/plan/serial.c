#include "plan/serial.h"

#include <string.h>

#include "base/mem.h"
#include "plan/profile.h"
#include "plan/temporal.h"

struct Serial {
  const Instance *in;
  int *root_earliest, *root_latest;
  int *start; /* of placed tasks */
  int *order, order_count; /* in which they were placed */
  bool *placed;
  bool *urgent; /* fixed, or a placed task holds its latest start */
  int *waiting; /* predecessors not placed yet */
  int *ready, ready_count; /* a heap by priority */
  const int *priority;
  Windows *delayed; /* with the delays of this run */
  Windows *now;     /* and with the tasks placed */
  Profile profile;
  int64_t work;
};

static int *copy(const int *values, int count)
{
  int *mine = mem_array((size_t)count, sizeof *mine);
  memcpy(mine, values, (size_t)count * sizeof *mine);
  return mine;
}

Serial *serial_new(const Instance *in, const int *earliest, const int *latest)
{
  Serial *s = mem_alloc(sizeof *s);
  size_t n = (size_t)in->count;
  s->in = in;
  s->root_earliest = copy(earliest, in->count);
  s->root_latest = copy(latest, in->count);
  s->start = mem_array(n, sizeof *s->start);
  s->order = mem_array(n, sizeof *s->order);
  s->placed = mem_array(n, sizeof *s->placed);
  s->urgent = mem_array(n, sizeof *s->urgent);
  s->waiting = mem_array(n, sizeof *s->waiting);
  s->ready = mem_array(n, sizeof *s->ready);
  s->delayed = windows_new(in);
  s->now = windows_new(in);
  s->profile = profile_new(in);
  return s;
}

void serial_free(Serial *s)
{
  if (s == NULL) return;
  void *blocks[] = { s->root_earliest, s->root_latest, s->start, s->order, s->placed,
                     s->urgent, s->waiting, s->ready };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
  windows_free(s->delayed);
  windows_free(s->now);
  profile_free(&s->profile);
  mem_free(s);
}

int64_t serial_work(const Serial *s) { return s->work + windows_work(s->now) + windows_work(s->delayed); }

/* ---- which tasks may be placed next */

static bool goes_before(const Serial *s, int a, int b)
{
  if (s->urgent[a] != s->urgent[b]) return s->urgent[a];
  return s->priority[a] != s->priority[b] ? s->priority[a] < s->priority[b] : a < b;
}

static void ready_add(Serial *s, int task)
{
  int latest = windows_latest(s->now)[task];
  s->urgent[task] = latest < windows_latest(s->delayed)[task] || latest == windows_earliest(s->now)[task];
  int at = s->ready_count++;
  for (; at > 0 && goes_before(s, task, s->ready[(at - 1) / 2]); at = (at - 1) / 2)
    s->ready[at] = s->ready[(at - 1) / 2];
  s->ready[at] = task;
}

static int ready_take(Serial *s)
{
  int first = s->ready[0], last = s->ready[--s->ready_count], at = 0;
  for (;;) {
    int child = 2 * at + 1;
    if (child + 1 < s->ready_count && goes_before(s, s->ready[child + 1], s->ready[child])) child++;
    if (child >= s->ready_count || goes_before(s, last, s->ready[child])) break;
    s->ready[at] = s->ready[child];
    at = child;
  }
  s->ready[at] = last;
  return first;
}

/* ---- placing */

typedef enum { PLACED_ALL, TOO_LATE, CLOSED } Outcome;

/* Places a task. Returns -1, or a task whose window that closed. */
static int place(Serial *s, int task, int start)
{
  s->start[task] = start;
  s->placed[task] = true;
  s->order[s->order_count++] = task;
  profile_take(&s->profile, task, start);
  windows_raise(s->now, task, start);
  windows_lower(s->now, task, start);
  int closed = windows_settle(s->now);
  if (closed >= 0) return closed;
  for (int k = s->in->out_first[task]; k < s->in->out_first[task + 1]; k++) {
    const Edge *e = &s->in->edges[s->in->out[k]];
    if (instance_orders(s->in, e) && --s->waiting[e->to] == 0) ready_add(s, e->to);
  }
  return -1;
}

/* Places what is not placed yet. TOO_LATE: *task would fit only at *start, past its window. CLOSED: placing the
 * last task closed the window of *task, which only calendars can do. */
static Outcome place_all(Serial *s, int *task, int *start)
{
  while (s->ready_count > 0) {
    int next = ready_take(s);
    int from = windows_earliest(s->now)[next], latest = windows_latest(s->now)[next];
    int at = profile_earliest(&s->profile, next, from, s->root_latest[next]);
    s->work += (s->in->duration[next] + (at < CALENDAR_NEVER ? at - from : 0)) / 8 + 4;
    *task = next;
    *start = at;
    if (at > latest) return TOO_LATE;
    *task = place(s, next, at);
    if (*task >= 0) return CLOSED;
  }
  return PLACED_ALL;
}

/* ---- taking back */

/* The windows that the delays and the first `keep` tasks leave. False if they contradict each other. */
static bool set_windows(Serial *s, int keep)
{
  windows_reset(s->now, windows_earliest(s->delayed), windows_latest(s->delayed));
  for (int k = 0; k < keep; k++) {
    windows_raise(s->now, s->order[k], s->start[s->order[k]]);
    windows_lower(s->now, s->order[k], s->start[s->order[k]]);
  }
  return windows_settle(s->now) < 0;
}

static void set_ready(Serial *s)
{
  const Instance *in = s->in;
  memset(s->waiting, 0, (size_t)in->count * sizeof *s->waiting);
  for (int k = 0; k < in->edge_count; k++) {
    const Edge *e = &in->edges[k];
    if (!s->placed[e->from] && instance_orders(in, e)) s->waiting[e->to]++;
  }
  s->ready_count = 0;
  for (int t = 0; t < in->count; t++)
    if (!s->placed[t] && s->waiting[t] == 0) ready_add(s, t);
  s->work += in->edge_count / 4;
}

/* Takes back all but the first `keep` tasks, or all if those cannot stay. */
static void take_back(Serial *s, int keep)
{
  if (!set_windows(s, keep)) set_windows(s, keep = 0);
  while (s->order_count > keep) {
    int task = s->order[--s->order_count];
    s->placed[task] = false;
    profile_give(&s->profile, task, s->start[task]);
  }
  set_ready(s);
}

/* How many tasks, in the order they were placed, start late enough for the delays. */
static int count_standing(const Serial *s)
{
  int keep = 0;
  while (keep < s->order_count && s->start[s->order[keep]] >= windows_earliest(s->delayed)[s->order[keep]]) keep++;
  return keep < s->order_count ? keep : 0;
}

static void begin(Serial *s)
{
  s->work += s->profile.used / 16;
  profile_clear(&s->profile);
  memset(s->placed, 0, (size_t)s->in->count * sizeof *s->placed);
  s->order_count = 0;
  windows_reset(s->delayed, s->root_earliest, s->root_latest);
  set_windows(s, 0);
  set_ready(s);
}

bool serial_run(Serial *s, const int *priority, int restarts, int *start)
{
  s->priority = priority;
  begin(s);
  for (int task, at;; restarts--) {
    Outcome outcome = place_all(s, &task, &at);
    if (outcome == PLACED_ALL) break;
    if (restarts <= 0 || at == CALENDAR_NEVER) return false;
    if (outcome == CLOSED) at = windows_earliest(s->now)[task];
    windows_raise(s->delayed, task, at);
    if (windows_settle(s->delayed) >= 0) return false;
    take_back(s, count_standing(s));
  }
  memcpy(start, s->start, (size_t)s->in->count * sizeof *start);
  return true;
}
