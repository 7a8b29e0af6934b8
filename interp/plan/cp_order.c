/* cp_order.c - which question to ask next: activities of "does the task start at or after k?". */
#include "base/mem.h"
#include "plan/cp_state.h"

enum { LARGEST_ORDER = 1 << 19 };

void order_begin(Cp *cp)
{
  Order *o = &cp->order;
  int n = cp->in->count;
  int64_t total = 0;
  for (int t = 0; t < n; t++) total += cp_lst(cp, t) - cp_est(cp, t);
  for (o->scale = 1; total / o->scale > LARGEST_ORDER;) o->scale *= 2;
  o->first = mem_array((size_t)n + 1, sizeof *o->first);
  o->origin = mem_array((size_t)n, sizeof *o->origin);
  for (int t = 0; t < n; t++) {
    o->origin[t] = cp_est(cp, t) + 1;
    o->first[t + 1] = o->first[t] + (cp_lst(cp, t) - cp_est(cp, t)) / o->scale + 1;
  }
  size_t size = (size_t)o->first[n];
  o->task = mem_array(size, sizeof *o->task);
  o->k = mem_array(size, sizeof *o->k);
  o->activity = mem_array(size, sizeof *o->activity);
  o->heap = mem_array(size, sizeof *o->heap);
  o->place = mem_array(size, sizeof *o->place);
  for (int t = 0; t < n; t++)
    for (int q = o->first[t]; q < o->first[t + 1]; q++) {
      o->task[q] = t;
      o->place[q] = -1;
    }
  o->bump = 1;
}

void order_free(Order *o)
{
  void *blocks[] = { o->first, o->origin, o->task, o->k, o->activity, o->heap, o->place };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
}

static void put(Order *o, int at, int q)
{
  o->heap[at] = q;
  o->place[q] = at;
}

static void rise(Order *o, int at)
{
  int q = o->heap[at];
  for (; at > 0 && o->activity[q] > o->activity[o->heap[(at - 1) / 2]]; at = (at - 1) / 2)
    put(o, at, o->heap[(at - 1) / 2]);
  put(o, at, q);
}

static void sink(Order *o, int at)
{
  int q = o->heap[at];
  for (;;) {
    int child = 2 * at + 1;
    if (child + 1 < o->heap_count && o->activity[o->heap[child + 1]] > o->activity[o->heap[child]]) child++;
    if (child >= o->heap_count || o->activity[o->heap[child]] <= o->activity[q]) break;
    put(o, at, o->heap[child]);
    at = child;
  }
  put(o, at, q);
}

static void insert(Order *o, int q)
{
  if (o->place[q] >= 0) return;
  put(o, o->heap_count, q);
  rise(o, o->heap_count++);
}

static int take_first(Order *o)
{
  int q = o->heap[0];
  o->place[q] = -1;
  if (--o->heap_count > 0) {
    put(o, 0, o->heap[o->heap_count]);
    sink(o, 0);
  }
  return q;
}

/* The k of "starts at or after k" that an atom answers. */
static int asked(Atom a) { return a.x % 2 == 0 ? a.v : -a.v + 1; }

static int question(const Order *o, int task, int k)
{
  int q = o->first[task] + (k - o->origin[task]) / o->scale;
  return q < o->first[task] ? o->first[task] : q < o->first[task + 1] ? q : o->first[task + 1] - 1;
}

void order_bump(Cp *cp, Atom a)
{
  Order *o = &cp->order;
  int q = question(o, a.x / 2, asked(a));
  o->k[q] = asked(a);
  o->activity[q] += o->bump;
  if (o->activity[q] > 1e100) {
    for (int k = 0; k < o->first[cp->in->count]; k++) o->activity[k] *= 1e-100;
    o->bump *= 1e-100;
  }
  if (o->place[q] >= 0) rise(o, o->place[q]);
  else insert(o, q);
}

void order_decay(Cp *cp) { cp->order.bump *= 1 / 0.95; }

void order_reopen(Cp *cp, const Move *m)
{
  Order *o = &cp->order;
  int task = m->x / 2;
  int low = asked((Atom){ m->x, m->x % 2 == 0 ? m->old + 1 : m->value });
  int high = asked((Atom){ m->x, m->x % 2 == 0 ? m->value : m->old + 1 });
  int last = question(o, task, high);
  for (int q = question(o, task, low); q <= last; q++)
    if (o->activity[q] > 0) insert(o, q);
}

bool order_next(Cp *cp, int *task, int *k)
{
  Order *o = &cp->order;
  while (o->heap_count > 0) {
    int q = take_first(o);
    *task = o->task[q];
    *k = o->k[q];
    if (cp_est(cp, *task) < *k && *k <= cp_lst(cp, *task)) return true;
  }
  return false;
}
