#include "plan/naming.h"

#include <assert.h>
#include <limits.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "plan/roster.h"

enum { LEAVING = 1000 }; /* more than anybody has skills */

/* A post: what one person does in one stretch of work. */
typedef struct {
  int activity, number; /* which of the activity's posts */
  int start, finish;
  int until;            /* the end of the stretch; past `finish` where a shift begins or ends meanwhile */
  bool goes_on;         /* of a stretch under way */
  int person, since;    /* who holds it, and since when; -1: nobody yet */
} Post;

/* Who held a post from when to when. */
typedef struct Held {
  struct Held *next; /* the one written down before it */
  Post post;
} Held;

typedef struct {
  Plan *plan;
  Arena *arena;
  Post *posts; /* by start */
  int count;
  Post *active[NAMING_MOST]; /* at most one a person */
  int active_count;
  int **last;  /* by activity and number: who held the post last, -1 nobody */
  Held **held; /* by activity */
} Naming;

uint64_t naming_people_with(const Plan *plan, const char *skill)
{
  uint64_t people = 0;
  for (int i = 0; i < plan->person_count; i++)
    if (plan_crew_can(&plan->job->crews[plan->persons[i].crew], skill)) people |= (uint64_t)1 << i;
  return people;
}

uint64_t naming_on_shift(const Plan *plan, int minute)
{
  uint64_t people = 0;
  for (int i = 0; i < plan->person_count; i++)
    if (roster_on_shift(plan->job, &plan->job->crews[plan->persons[i].crew], minute)) people |= (uint64_t)1 << i;
  return people;
}

static int by_start(const void *a, const void *b)
{
  const Post *x = a, *y = b;
  if (x->start != y->start) return x->start < y->start ? -1 : 1;
  if (x->goes_on != y->goes_on) return x->goes_on ? -1 : 1;
  if (x->activity != y->activity) return x->activity < y->activity ? -1 : 1;
  return x->number - y->number;
}

static bool is_staffed(const Plan *plan, int activity)
{
  return plan->activities[activity].attended && plan->bookings[activity].start < plan->bookings[activity].finish;
}

/* Cuts the stretches where a shift begins or ends: there everybody is asked anew. With posts NULL only counts. */
static int cut_posts(const Plan *plan, int activity, Post *posts)
{
  const Booking *b = &plan->bookings[activity];
  int count = 0;
  for (int s = 0; is_staffed(plan, activity) && s < b->stretch_count; s++)
    for (int from = b->stretches[s].start, to; from < b->stretches[s].finish; from = to) {
      to = roster_next_change(plan->job, from);
      const Stretch *stretch = &b->stretches[s];
      if (to > stretch->finish) to = stretch->finish;
      for (int k = 0; k < plan->activities[activity].people; k++, count++)
        if (posts) posts[count] = (Post){ activity, k, from, to, stretch->finish, from > stretch->start, -1, from };
    }
  return count;
}

static void list_posts(Naming *n)
{
  size_t most = 1;
  for (int i = 0; i < n->plan->activity_count; i++) most += (size_t)cut_posts(n->plan, i, NULL);
  n->posts = arena_array(n->arena, most, sizeof *n->posts);
  for (int i = 0; i < n->plan->activity_count; i++) n->count += cut_posts(n->plan, i, n->posts + n->count);
  qsort(n->posts, (size_t)n->count, sizeof *n->posts, by_start);
}

/* ---- the sweep through time */

static void write_down(Naming *n, Post post, int until)
{
  if (post.since >= until) return;
  Held *held = arena_alloc(n->arena, sizeof *held);
  post.finish = until;
  *held = (Held){ n->held[post.activity], post };
  n->held[post.activity] = held;
  n->last[post.activity][post.number] = post.person;
}

static void end_posts(Naming *n, int now)
{
  int kept = 0;
  for (int i = 0; i < n->active_count; i++) {
    if (n->active[i]->finish > now) n->active[kept++] = n->active[i];
    else write_down(n, *n->active[i], n->active[i]->finish);
  }
  n->active_count = kept;
}

static Post *held_by(const Naming *n, int person)
{
  for (int i = 0; i < n->active_count; i++)
    if (n->active[i]->person == person) return n->active[i];
  return NULL;
}

/* Lower is asked sooner: who was at it before, then those who need not leave it to others, then those with the
 * fewest skills. */
static int reluctance(const Naming *n, const Post *post, int person, int now)
{
  const Crew *crew = &n->plan->job->crews[n->plan->persons[person].crew];
  bool leaves = roster_shift_end(n->plan->job, crew, now) < post->until;
  return person == n->last[post->activity][post->number] ? -1 : crew->skill_count + (leaves ? LEAVING : 0);
}

/* Who can do it, the most willing first; ties in the order of the job. */
static int candidates(const Naming *n, const Post *post, int now, int order[NAMING_MOST])
{
  const char *skill = plan_skill_of(&n->plan->activities[post->activity], post->number);
  uint64_t able = naming_people_with(n->plan, skill) & naming_on_shift(n->plan, now);
  int count = 0, wish[NAMING_MOST];
  for (int p = 0; p < n->plan->person_count; p++) {
    if (!(able >> p & 1)) continue;
    int k = count++, theirs = reluctance(n, post, p, now);
    for (; k > 0 && wish[k - 1] > theirs; k--) {
      order[k] = order[k - 1];
      wish[k] = wish[k - 1];
    }
    order[k] = p;
    wish[k] = theirs;
  }
  return count;
}

static bool find_person(Naming *n, Post *post, int now, uint64_t *asked);

/* The person leaves the post they hold to somebody else, if anybody can be found for it. */
static bool hand_over(Naming *n, int person, int now, uint64_t *asked)
{
  Post *theirs = held_by(n, person), before = *theirs;
  theirs->person = -1;
  if (!find_person(n, theirs, now, asked)) {
    *theirs = before;
    return false;
  }
  write_down(n, before, now);
  return true;
}

static bool find_person(Naming *n, Post *post, int now, uint64_t *asked)
{
  int order[NAMING_MOST], count = candidates(n, post, now, order), chosen = -1;
  for (int i = 0; i < count && chosen < 0; i++)
    if (!held_by(n, order[i]) && !(*asked >> order[i] & 1)) chosen = order[i];
  for (int i = 0; i < count && chosen < 0; i++) {
    if (*asked >> order[i] & 1) continue;
    *asked |= (uint64_t)1 << order[i];
    if (hand_over(n, order[i], now, asked)) chosen = order[i];
  }
  if (chosen < 0) return false;
  post->person = chosen;
  post->since = now;
  return true;
}

static void sweep(Naming *n)
{
  int now = 0;
  for (int i = 0; i < n->count; i++) {
    Post *post = &n->posts[i];
    if (post->start != now) end_posts(n, now = post->start);
    uint64_t asked = 0;
    bool found = find_person(n, post, now, &asked);
    assert(found && n->active_count < NAMING_MOST); /* the schedule keeps Hall's condition */
    if (found) n->active[n->active_count++] = post;
  }
  end_posts(n, INT_MAX);
}

/* ---- stretches cut at hand-overs */

/* The end of the piece of a stretch that begins at `from`: the next hand-over, or the stretch's own end. */
static int piece_end(const Held *held, int from, int finish)
{
  for (; held; held = held->next)
    if (held->post.since > from && held->post.since < finish) finish = held->post.since;
  return finish;
}

static const int *people_at(Naming *n, int activity, int minute)
{
  int *people = arena_array(n->arena, (size_t)n->plan->activities[activity].people + 1, sizeof *people);
  for (const Held *h = n->held[activity]; h; h = h->next)
    if (h->post.since <= minute && minute < h->post.finish) people[h->post.number] = h->post.person;
  return people;
}

/* The same people go on: one piece. */
static bool goes_on(const Stretch *before, const Stretch *next, int people)
{
  return before->finish == next->start &&
         memcmp(before->people, next->people, (size_t)people * sizeof *next->people) == 0;
}

static void note_all(Booking *b, const int *people, int count)
{
  for (int k = 0; k < count; k++) {
    bool known = false;
    for (int i = 0; i < b->people_count; i++) known = known || b->people[i] == people[k];
    if (!known) b->people[b->people_count++] = people[k];
  }
}

static void cut_stretches(Naming *n, int activity)
{
  Booking *b = &n->plan->bookings[activity];
  int most = b->stretch_count, count = 0, people = n->plan->activities[activity].people;
  for (const Held *h = n->held[activity]; h; h = h->next) most++;
  Stretch *pieces = arena_array(n->arena, (size_t)most, sizeof *pieces);
  b->people = arena_array(n->arena, NAMING_MOST, sizeof *b->people);
  for (int s = 0; s < b->stretch_count; s++)
    for (int from = b->stretches[s].start, to; from < b->stretches[s].finish; from = to) {
      to = piece_end(n->held[activity], from, b->stretches[s].finish);
      Stretch piece = { .start = from, .finish = to, .people = people_at(n, activity, from) };
      note_all(b, piece.people, people);
      bool joins = from > b->stretches[s].start && goes_on(&pieces[count - 1], &piece, people);
      if (joins) pieces[count - 1].finish = to;
      else pieces[count++] = piece;
    }
  b->stretches = pieces;
  b->stretch_count = count;
}

void naming_people(Plan *plan, Arena *arena)
{
  Naming n = { .plan = plan, .arena = arena };
  n.last = arena_array(arena, (size_t)plan->activity_count + 1, sizeof *n.last);
  n.held = arena_array(arena, (size_t)plan->activity_count + 1, sizeof *n.held);
  for (int i = 0; i < plan->activity_count; i++) {
    int people = plan->activities[i].people;
    n.last[i] = arena_array(arena, (size_t)people + 1, sizeof *n.last[i]);
    for (int k = 0; k < people; k++) n.last[i][k] = -1;
  }
  list_posts(&n);
  sweep(&n);
  for (int i = 0; i < plan->activity_count; i++)
    if (is_staffed(plan, i)) cut_stretches(&n, i);
}
