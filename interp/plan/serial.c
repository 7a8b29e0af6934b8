#include "plan/serial.h"

#include <string.h>

#include "base/mem.h"
#include "plan/profile.h"
#include "plan/temporal.h"

/* Where the windows stood before a task was placed, and how many moves of the delayed ones they knew of. */
typedef struct {
  int now, delayed;
} Mark;

struct Serial {
  const Instance *in;
  int *root_earliest, *root_latest;
  int *start; /* of placed tasks */
  int *order, order_count; /* in which they were placed */
  int *position;           /* of a placed task in the order */
  Mark *marks;             /* by position */
  int known;               /* moves of the delayed windows that those of now know of */
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
  s->position = mem_array(n, sizeof *s->position);
  s->marks = mem_array(n, sizeof *s->marks);
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
  void *blocks[] = { s->root_earliest, s->root_latest, s->start, s->order, s->position, s->marks,
                     s->placed, s->urgent, s->waiting, s->ready };
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

/* Those that waited for this task alone may be placed now. */
static void release_followers(Serial *s, int task)
{
  for (int k = s->in->out_first[task]; k < s->in->out_first[task + 1]; k++) {
    const Edge *e = &s->in->edges[s->in->out[k]];
    if (instance_orders(s->in, e) && --s->waiting[e->to] == 0) ready_add(s, e->to);
  }
}

/* Places a task. Returns -1, or a task whose window that closed. */
static int place(Serial *s, int task, int start)
{
  s->start[task] = start;
  s->placed[task] = true;
  s->position[task] = s->order_count;
  s->marks[s->order_count] = (Mark){ windows_mark(s->now), s->known };
  s->order[s->order_count++] = task;
  profile_take(&s->profile, task, start);
  windows_raise(s->now, task, start);
  windows_lower(s->now, task, start);
  int closed = windows_settle(s->now);
  release_followers(s, task);
  return closed;
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
    if (at > latest) {
      ready_add(s, next);
      return TOO_LATE;
    }
    *task = place(s, next, at);
    if (*task >= 0) return CLOSED;
  }
  return PLACED_ALL;
}

/* ---- taking back */

/* The windows that the delays and the first `keep` tasks leave. False if they contradict each other. */
static bool windows_of(Serial *s, int keep)
{
  Mark mark = s->marks[keep];
  windows_back(s->now, mark.now);
  s->known = windows_mark(s->delayed);
  for (int move = mark.delayed; move < s->known; move++) {
    int task = windows_moved(s->delayed, move);
    windows_raise(s->now, task, windows_earliest(s->delayed)[task]);
  }
  return windows_settle(s->now) < 0;
}

/* The windows that the delays alone leave. */
static void begin_windows(Serial *s)
{
  windows_reset(s->now, windows_earliest(s->delayed), windows_latest(s->delayed));
  s->known = windows_mark(s->delayed);
  s->marks[0] = (Mark){ windows_mark(s->now), s->known };
}

static void unplace_last(Serial *s)
{
  int task = s->order[--s->order_count];
  s->placed[task] = false;
  profile_give(&s->profile, task, s->start[task]);
  for (int k = s->in->out_first[task]; k < s->in->out_first[task + 1]; k++) {
    const Edge *e = &s->in->edges[s->in->out[k]];
    if (instance_orders(s->in, e)) s->waiting[e->to]++;
  }
}

/* Takes back all but the first `keep` tasks, or all if those cannot stay. What is ready is put in order anew, for
 * the windows that make work urgent have changed. */
static void take_back(Serial *s, int keep)
{
  int ready = s->ready_count, taken_until = s->order_count;
  if (!windows_of(s, keep)) {
    begin_windows(s);
    keep = 0;
  }
  while (s->order_count > keep) unplace_last(s);
  s->ready_count = 0;
  for (int k = 0; k < ready; k++)
    if (s->waiting[s->ready[k]] == 0) ready_add(s, s->ready[k]);
  for (int k = keep; k < taken_until; k++)
    if (s->waiting[s->order[k]] == 0) ready_add(s, s->order[k]);
  s->work += ready / 4;
}

/* The first in the order of placing that starts too early for the delays since `move`; 0 if there is none. */
static int first_disturbed(const Serial *s, int move)
{
  int first = s->order_count;
  for (; move < windows_mark(s->delayed); move++) {
    int task = windows_moved(s->delayed, move);
    bool early = s->placed[task] && s->start[task] < windows_earliest(s->delayed)[task];
    if (early && s->position[task] < first) first = s->position[task];
  }
  return first < s->order_count ? first : 0;
}

static void set_ready(Serial *s)
{
  const Instance *in = s->in;
  memset(s->waiting, 0, (size_t)in->count * sizeof *s->waiting);
  for (int k = 0; k < in->edge_count; k++)
    if (instance_orders(in, &in->edges[k])) s->waiting[in->edges[k].to]++;
  s->ready_count = 0;
  for (int t = 0; t < in->count; t++)
    if (s->waiting[t] == 0) ready_add(s, t);
  s->work += in->edge_count / 4;
}

static void begin(Serial *s)
{
  s->work += s->profile.used / 16;
  profile_clear(&s->profile);
  memset(s->placed, 0, (size_t)s->in->count * sizeof *s->placed);
  s->order_count = 0;
  windows_reset(s->delayed, s->root_earliest, s->root_latest);
  begin_windows(s);
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
    int before = windows_mark(s->delayed);
    windows_raise(s->delayed, task, at);
    if (windows_settle(s->delayed) >= 0) return false;
    take_back(s, first_disturbed(s, before));
  }
  memcpy(start, s->start, (size_t)s->in->count * sizeof *start);
  return true;
}
