#include "plan/supply.h"

#include <math.h>
#include <stdint.h>

#include "base/mem.h"
#include "plan/carry.h"

/* Combinations are counted off like the digits of a number: digit k is how many machines of class k run. */
enum { COMBINATIONS = 1024, LARGEST_WEIGHT = 100 };

typedef struct {
  int class[SUPPLY_CLASSES], most[SUPPLY_CLASSES]; /* most of each alone; what lies past it is one limit each */
  double amps[SUPPLY_CLASSES];
  int count, combinations;
  bool *carried; /* by combination */
  bool *cut;     /* not carried, and some limit forbids it */
} Supplies;

static bool draws(const Machine *m) { return m->amps.given && m->volts.given && m->amps.figure.value > 0; }

static bool is_carried(const Job *job, const int *classes, const int *running, int count)
{
  CarryLoad loads[CARRY_MOST];
  CarryCircuit circuits[CARRY_MOST];
  int load_count = 0, circuit_count = 0;
  for (int k = 0; k < count; k++)
    for (int n = 0; n < running[k]; n++) {
      const Machine *m = &job->machines[classes[k]];
      if (load_count == CARRY_MOST) return false;
      loads[load_count++] = (CarryLoad){ m->amps.figure.value, m->volts.figure.value, m->three_phase };
    }
  for (int i = 0; i < job->supply_count && i < CARRY_MOST; i++)
    circuits[circuit_count++] = (CarryCircuit){ job->supplies[i].amps, job->supplies[i].volts,
                                                job->supplies[i].three_phase };
  return carry_all(loads, load_count, circuits, circuit_count);
}

static int most_alone(const Job *job, int class)
{
  int running = 0;
  while (running < job->machines[class].count && is_carried(job, &class, &(int){ running + 1 }, 1)) running++;
  return running;
}

/* The classes that circuits carry, as many as there is room for combinations of. */
static void list_classes(const Job *job, Supplies *s)
{
  s->combinations = 1;
  for (int i = 0; i < job->machine_count && s->count < SUPPLY_CLASSES; i++) {
    if (!draws(&job->machines[i])) continue;
    int most = most_alone(job, i);
    if (most == 0 || s->combinations * (most + 1) > COMBINATIONS) continue;
    s->class[s->count] = i;
    s->most[s->count] = most;
    s->amps[s->count++] = job->machines[i].amps.figure.value;
    s->combinations *= most + 1;
  }
}

static void digits_of(const Supplies *s, int combination, int *running)
{
  for (int k = 0; k < s->count; k++) {
    running[k] = combination % (s->most[k] + 1);
    combination /= s->most[k] + 1;
  }
}

static int weight_of(const Supplies *s, int combination, const int *weight)
{
  int running[SUPPLY_CLASSES], sum = 0;
  digits_of(s, combination, running);
  for (int k = 0; k < s->count; k++) sum += weight[k] * running[k];
  return sum;
}

/* The least limit with these weights that forbids nothing the circuits carry. */
static int most_carried(const Supplies *s, const int *weight)
{
  int most = 0;
  for (int c = 0; c < s->combinations; c++)
    if (s->carried[c] && weight_of(s, c, weight) > most) most = weight_of(s, c, weight);
  return most;
}

static int would_cut(const Supplies *s, const int *weight, int most)
{
  int cuts = 0;
  for (int c = 0; c < s->combinations; c++)
    cuts += !s->carried[c] && !s->cut[c] && weight_of(s, c, weight) > most;
  return cuts;
}

static SupplyLimit write_limit(Supplies *s, const int *weight, int most)
{
  SupplyLimit limit = { .most = most };
  for (int k = 0; k < s->count; k++) {
    if (weight[k] == 0) continue;
    limit.class[limit.count] = s->class[k];
    limit.weight[limit.count++] = weight[k];
  }
  for (int c = 0; c < s->combinations; c++)
    if (!s->carried[c] && weight_of(s, c, weight) > most) s->cut[c] = true;
  return limit;
}

/* Of a set of classes: each machine counts alike, or by its current. */
static void set_weights(const Supplies *s, unsigned set, bool by_current, int *weight)
{
  double largest = 0;
  for (int k = 0; k < s->count; k++) largest = fmax(largest, s->amps[k]);
  for (int k = 0; k < s->count; k++) {
    double amps = largest > LARGEST_WEIGHT ? s->amps[k] * LARGEST_WEIGHT / largest : s->amps[k];
    int current = amps < 1 ? 1 : (int)lround(amps);
    weight[k] = set >> k & 1 ? (by_current ? current : 1) : 0;
  }
}

/* The limit of exact form that forbids most of what is not forbidden yet; false: none does. */
static bool best_limit(Supplies *s, SupplyLimit *limit)
{
  int best[SUPPLY_CLASSES], best_most = 0, best_cuts = 0;
  for (int kind = 0; kind < 2; kind++)
    for (unsigned set = 1; set < 1u << s->count; set++) {
      int weight[SUPPLY_CLASSES];
      set_weights(s, set, kind == 1, weight);
      int most = most_carried(s, weight), cuts = would_cut(s, weight, most);
      if (cuts <= best_cuts) continue;
      for (int k = 0; k < s->count; k++) best[k] = weight[k];
      best_most = most;
      best_cuts = cuts;
    }
  if (best_cuts > 0) *limit = write_limit(s, best, best_most);
  return best_cuts > 0;
}

/* The careful one: of the classes of the smallest combination not forbidden yet fewer machines than it has. */
static bool careful_limit(Supplies *s, SupplyLimit *limit)
{
  static const int each[SUPPLY_CLASSES] = { 1, 1, 1, 1, 1, 1, 1, 1 };
  int smallest = -1;
  for (int c = 0; c < s->combinations; c++)
    if (!s->carried[c] && !s->cut[c] && (smallest < 0 || weight_of(s, c, each) < weight_of(s, smallest, each)))
      smallest = c;
  if (smallest < 0) return false;
  int running[SUPPLY_CLASSES], weight[SUPPLY_CLASSES];
  digits_of(s, smallest, running);
  for (int k = 0; k < s->count; k++) weight[k] = running[k] > 0;
  *limit = write_limit(s, weight, weight_of(s, smallest, each) - 1);
  return true;
}

static int limits_together(const Job *job, Supplies *s, SupplyLimit *limits, int room)
{
  int count = 0;
  s->carried = mem_array((size_t)s->combinations, sizeof *s->carried);
  s->cut = mem_array((size_t)s->combinations, sizeof *s->cut);
  for (int c = 0; c < s->combinations; c++) {
    int running[SUPPLY_CLASSES];
    digits_of(s, c, running);
    s->carried[c] = is_carried(job, s->class, running, s->count);
  }
  while (count < room && (best_limit(s, &limits[count]) || careful_limit(s, &limits[count]))) count++;
  mem_free(s->carried);
  mem_free(s->cut);
  return count;
}

int supply_limits(const Job *job, SupplyLimit *limits)
{
  Supplies s = { .count = 0 };
  int count = 0;
  if (job->supply_count == 0) return 0;
  list_classes(job, &s);
  for (int k = 0; k < s.count; k++) {
    if (s.most[k] == job->machines[s.class[k]].count) continue;
    limits[count] = (SupplyLimit){ .class = { s.class[k] }, .weight = { 1 }, .count = 1, .most = s.most[k] };
    count++;
  }
  return count + limits_together(job, &s, limits + count, SUPPLY_LIMITS - count);
}
