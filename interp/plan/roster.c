#include "plan/roster.h"

#include <limits.h>
#include <stdlib.h>

#include "base/mem.h"
#include "model/date.h"

bool roster_is_away(const Days *away, const Job *job, int day)
{
  for (int i = 0; i < away->count; i++)
    if (away->days[i] == job->start_day + day) return true;
  return false;
}

/* Hours that begin on their days of the week, but for some days; without hours whole days. */
static Calendar *from_hours(const Job *job, const Shift *hours, const Days *but, int days)
{
  static const Shift whole_days = { .until_min = DAY_MIN, .days = (1u << WEEK_DAYS) - 1 };
  if (hours == NULL) hours = &whole_days;
  Interval *open = mem_array((size_t)days + 1, sizeof *open);
  size_t count = 0;
  for (int day = -1; day < days; day++) {
    if (!(hours->days >> date_weekday(job->start_day + day) & 1) || roster_is_away(but, job, day)) continue;
    Interval piece = { day * DAY_MIN + hours->from_min, day * DAY_MIN + hours->until_min };
    if (piece.begin < job->start_min) piece.begin = job->start_min;
    if (piece.begin < piece.end) open[count++] = piece;
  }
  Calendar *calendar = calendar_new(open, count);
  mem_free(open);
  return calendar;
}

/* Both, freeing them. */
static Calendar *meet(Calendar *a, Calendar *b)
{
  Calendar *both = calendar_both(a, b);
  calendar_free(a);
  calendar_free(b);
  return both;
}

static const Days never_away = { 0 };

static Calendar *site(const Job *job, int days)
{
  Calendar *open = from_hours(job, NULL, &job->closed, days);
  return job->site_hours ? meet(open, from_hours(job, job->site_hours, &never_away, days)) : open;
}

Calendar *roster_crew(const Job *job, const Crew *crew, int days)
{
  return meet(site(job, days), from_hours(job, &job->shifts[crew->shift], &crew->away, days));
}

Calendar *roster_machine(const Job *job, const Machine *machine, int days)
{
  if (!machine->has_hours && machine->away.count == 0) return NULL;
  return from_hours(job, machine->has_hours ? &machine->hours : NULL, &machine->away, days);
}

Calendar *roster_area(const Job *job, const Area *area, int days)
{
  Calendar *open = site(job, days);
  return area->has_hours ? meet(open, from_hours(job, &area->hours, &never_away, days)) : open;
}

Calendar *roster_floor(const Job *job, const Area *area, int days)
{
  return area->has_hours ? from_hours(job, &area->hours, &never_away, days) : NULL;
}

/* ---- people of a skill, in whatever shifts they work */

/* Does the shift that begins on that day of the week cover the minute, counted from its midnight? */
static bool covers(const Shift *shift, int weekday, int minute)
{
  return (shift->days >> weekday & 1) && minute >= shift->from_min && minute < shift->until_min;
}

static bool covers_of_late(const Shift *shift, int weekday, int minute)
{
  return covers(shift, weekday, minute) ||
         covers(shift, (weekday + WEEK_DAYS - 1) % WEEK_DAYS, minute + DAY_MIN);
}

/* How many people who are there have the skill, and the other, and either. */
typedef struct {
  int first, second, either;
} Heads;

static void count_heads(const Crew *crew, const Team *team, int sign, Heads *heads)
{
  bool first = plan_crew_can(crew, team->skill), second = team->also > 0 && plan_crew_can(crew, team->also_skill);
  int people = sign * crew->count;
  heads->first += first ? people : 0;
  heads->second += second ? people : 0;
  heads->either += first || second ? people : 0;
}

/* Hall's condition for two groups. */
static bool suffice(const Heads *heads, const Team *team)
{
  return heads->first >= team->people && heads->second >= team->also && heads->either >= team->people + team->also;
}

static Heads heads_in_week(const Job *job, const Team *team, int weekday, int minute)
{
  Heads heads = { 0 };
  for (int i = 0; i < job->crew_count; i++)
    if (covers_of_late(&job->shifts[job->crews[i].shift], weekday, minute))
      count_heads(&job->crews[i], team, 1, &heads);
  return heads;
}

/* There are never more than when some shift begins. */
int roster_people_at_once(const Job *job, const char *skill)
{
  int most = 0;
  for (int s = 0; s < job->shift_count; s++)
    for (int day = 0; day < WEEK_DAYS; day++) {
      if (!(job->shifts[s].days >> day & 1)) continue;
      int people = heads_in_week(job, &(Team){ .skill = skill }, day, job->shifts[s].from_min).first;
      if (people > most) most = people;
    }
  return most;
}

bool roster_team_exists(const Job *job, const Team *team)
{
  for (int s = 0; s < job->shift_count; s++)
    for (int day = 0; day < WEEK_DAYS; day++) {
      if (!(job->shifts[s].days >> day & 1)) continue;
      Heads heads = heads_in_week(job, team, day, job->shifts[s].from_min);
      if (suffice(&heads, team)) return true;
    }
  return false;
}

int roster_shift_end(const Job *job, const Crew *crew, int minute)
{
  const Shift *shift = &job->shifts[crew->shift];
  int today = minute >= 0 ? minute / DAY_MIN : -1;
  for (int day = today; day >= today - 1; day--)
    if (!roster_is_away(&crew->away, job, day) &&
        covers(shift, date_weekday(job->start_day + day), minute - day * DAY_MIN))
      return day * DAY_MIN + shift->until_min;
  return minute;
}

bool roster_on_shift(const Job *job, const Crew *crew, int minute)
{
  return roster_shift_end(job, crew, minute) > minute;
}

int roster_next_change(const Job *job, int minute)
{
  int next = INT_MAX, midnight = minute / DAY_MIN * DAY_MIN;
  for (int i = 0; i < job->crew_count; i++) {
    const Shift *shift = &job->shifts[job->crews[i].shift];
    int ends[] = { midnight + shift->from_min % DAY_MIN, midnight + shift->until_min % DAY_MIN };
    for (int k = 0; k < 2; k++) {
      int at = ends[k] > minute ? ends[k] : ends[k] + DAY_MIN;
      if (at < next) next = at;
    }
  }
  return next;
}

typedef struct {
  int minute, crew, sign;
} Change;

static int by_minute(const void *a, const void *b)
{
  const Change *x = a, *y = b;
  return (x->minute > y->minute) - (x->minute < y->minute);
}

static size_t list_changes(const Job *job, const Team *team, int days, Change **changes)
{
  size_t count = 0;
  *changes = NULL;
  for (int i = 0; i < job->crew_count; i++) {
    Heads heads = { 0 };
    count_heads(&job->crews[i], team, 1, &heads);
    if (heads.either == 0) continue;
    Calendar *there = roster_crew(job, &job->crews[i], days);
    *changes = mem_grow(*changes, count + 2 * there->count + 1, sizeof **changes);
    for (size_t k = 0; k < there->count; k++) {
      (*changes)[count++] = (Change){ there->open[k].begin, i, 1 };
      (*changes)[count++] = (Change){ there->open[k].end, i, -1 };
    }
    calendar_free(there);
  }
  if (count > 0) qsort(*changes, count, sizeof **changes, by_minute);
  return count;
}

Calendar *roster_team(const Job *job, const Team *team, int days)
{
  Change *changes;
  size_t count = list_changes(job, team, days, &changes), pieces = 0;
  Interval *open = mem_array(count + 1, sizeof *open);
  Heads heads = { 0 };
  bool were = false;
  for (size_t k = 0; k < count; k++) {
    count_heads(&job->crews[changes[k].crew], team, changes[k].sign, &heads);
    if (k + 1 < count && changes[k + 1].minute == changes[k].minute) continue;
    bool are = suffice(&heads, team);
    if (are && !were) open[pieces].begin = changes[k].minute;
    if (were && !are) open[pieces++].end = changes[k].minute;
    were = are;
  }
  Calendar *calendar = calendar_new(open, pieces);
  mem_free(changes);
  mem_free(open);
  return calendar;
}

int roster_longest(const Calendar *calendar)
{
  if (calendar == NULL) return INT_MAX;
  int longest = 0;
  for (size_t i = 0; i < calendar->count; i++) {
    int length = calendar->open[i].end - calendar->open[i].begin;
    if (length > longest) longest = length;
  }
  return longest;
}
