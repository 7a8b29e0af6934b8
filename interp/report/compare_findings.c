/* compare_findings.c - which findings came, went and stayed from one recipe or job to another. */
#include <stdlib.h>
#include <string.h>

#include "report/node_words.h"
#include "report/report_compare.h"

const char *const finding_fate_names[FINDING_FATES] = { "came", "went", "stayed" };

FindingFate finding_fate(const ComparedFinding *finding)
{
  if (!finding->was) return FINDING_CAME;
  return finding->now ? FINDING_STAYED : FINDING_WENT;
}

ToldList told_of(Diags *diags, const Sources *sources, Arena *arena)
{
  int count = (int)diags_count(diags);
  Told *list = arena_array(arena, (size_t)count + 1, sizeof *list);
  diags_sort(diags);
  for (int i = 0; i < count; i++) {
    const Diag *d = diags_get(diags, (size_t)i);
    Buf place = { 0 };
    node_place(d->at, sources, &place);
    list[i] = (Told){ d->level, arena_strdup(arena, d->code), arena_strdup(arena, d->message),
                      arena_strdup(arena, buf_text(&place)), arena_strdup(arena, d->about ? d->about : "") };
    buf_free(&place);
  }
  return (ToldList){ list, count };
}

/* ---- what a finding is about, in the order in which it is told */

typedef struct {
  const Comparison *recipes; /* NULL: of jobs */
  const char **others;       /* what is no step of the recipes, in the order in which it came up */
  int other_count;
} Ranks;

static int rank_of_other(Ranks *ranks, const char *about)
{
  int i = 0;
  while (i < ranks->other_count && strcmp(ranks->others[i], about) != 0) i++;
  if (i == ranks->other_count) ranks->others[ranks->other_count++] = about;
  return i;
}

static int rank_of(Ranks *ranks, const char *about, bool is_now)
{
  int steps = ranks->recipes ? ranks->recipes->step_count : 0;
  if (*about == '\0') return -1;
  for (int i = 0; i < steps; i++) {
    const ComparedStep *step = &ranks->recipes->steps[i];
    if (strcmp(is_now ? step->now : step->was, about) == 0) return i;
  }
  return steps + rank_of_other(ranks, about);
}

/* ---- pairing */

typedef struct {
  ToldList list;
  int *ranks;
  bool *taken;
} Side;

static Side side_of(ToldList list, Ranks *ranks, bool is_now, Arena *arena)
{
  Side side = { list, arena_array(arena, (size_t)list.count + 1, sizeof *side.ranks),
                arena_array(arena, (size_t)list.count + 1, sizeof *side.taken) };
  for (int i = 0; i < list.count; i++) {
    side.ranks[i] = rank_of(ranks, list.items[i].about, is_now);
    side.taken[i] = false;
  }
  return side;
}

/* The first free finding of the other side of the same code about the same thing; with the same words if asked. */
static int partner_of(const Side *side, int rank, const Told *told, bool same_words)
{
  for (int i = 0; i < side->list.count; i++) {
    const Told *other = &side->list.items[i];
    if (side->taken[i] || side->ranks[i] != rank || strcmp(other->code, told->code) != 0) continue;
    if (!same_words || strcmp(other->message, told->message) == 0) return i;
  }
  return -1;
}

static int pair(Side *was, Side *now, bool same_words, ComparedFinding *out, int count)
{
  for (int i = 0; i < now->list.count; i++) {
    const Told *told = &now->list.items[i];
    int partner = now->taken[i] ? -1 : partner_of(was, now->ranks[i], told, same_words);
    if (partner < 0) continue;
    now->taken[i] = was->taken[partner] = true;
    out[count++] = (ComparedFinding){ &was->list.items[partner], told, told->about, now->ranks[i], i };
  }
  return count;
}

/* A step that went on under another name is called by that. */
static const char *name_now(const Ranks *ranks, int rank, const char *about)
{
  bool is_step = ranks->recipes && rank >= 0 && rank < ranks->recipes->step_count;
  return is_step && *ranks->recipes->steps[rank].now ? ranks->recipes->steps[rank].now : about;
}

static int add_alone(const Side *side, const Ranks *ranks, bool is_now, ComparedFinding *out, int count)
{
  for (int i = 0; i < side->list.count; i++) {
    const Told *told = &side->list.items[i];
    if (side->taken[i]) continue;
    out[count++] = (ComparedFinding){ is_now ? NULL : told, is_now ? told : NULL,
                                      name_now(ranks, side->ranks[i], told->about), side->ranks[i], i };
  }
  return count;
}

static int order_of(int a, int b) { return (a > b) - (a < b); }

static int compare_findings(const void *a, const void *b)
{
  const ComparedFinding *x = a, *y = b;
  int order = order_of(x->rank, y->rank);
  if (order == 0) order = order_of((int)finding_fate(x), (int)finding_fate(y));
  return order ? order : order_of(x->order, y->order);
}

ComparedFindings findings_compared(ToldList was, ToldList now, const Comparison *recipes, Arena *arena)
{
  size_t room = (size_t)was.count + (size_t)now.count + 1;
  ComparedFinding *list = arena_array(arena, room, sizeof *list);
  Ranks ranks = { recipes, arena_array(arena, room, sizeof *ranks.others), 0 };
  Side second = side_of(now, &ranks, true, arena), first = side_of(was, &ranks, false, arena);
  int count = pair(&first, &second, true, list, 0);
  count = pair(&first, &second, false, list, count);
  count = add_alone(&second, &ranks, true, list, count);
  count = add_alone(&first, &ranks, false, list, count);
  qsort(list, (size_t)count, sizeof *list, compare_findings);
  return (ComparedFindings){ list, count };
}
