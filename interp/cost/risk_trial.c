#include "cost/risk_trial.h"

#include <math.h>
#include <string.h>

#include "base/mem.h"
#include "base/philox.h"

enum { LONGEST_MIN = 1 << 20 };

/* Numbers for different things never meet: the third word of the counter. */
typedef enum { STREAM_INPUTS, STREAM_REWORK, STREAM_LOST_DAYS } Stream;

struct RiskTrial {
  const RiskModel *m;
  uint32_t trial;
  bool likely;
  double *values; /* by input */
  double *efforts, *costs;
  int *minutes, *scratch, *start, *finish;
  double *shares;
  bool *reworked; /* by number of the field */
  int *moved;     /* by place among the days of work: the place it is done at */
  int moved_count;
  uint32_t *seen; /* by day: the run that worked on it last */
  uint32_t run;
};

RiskTrial *risk_trial_new(const RiskModel *m)
{
  RiskTrial *t = mem_alloc(sizeof *t);
  size_t count = (size_t)m->plan->activity_count;
  *t = (RiskTrial){ .m = m, .values = mem_array((size_t)m->input_count + PHILOX_WORDS, sizeof *t->values),
                    .efforts = reckoning_array(m->efforts), .minutes = mem_array(count, sizeof *t->minutes),
                    .scratch = retiming_scratch(m->retiming), .start = mem_array(count, sizeof *t->start),
                    .finish = mem_array(count, sizeof *t->finish),
                    .shares = mem_array((size_t)m->share_count, sizeof *t->shares),
                    .reworked = mem_array((size_t)m->rework_count + PHILOX_WORDS, sizeof *t->reworked),
                    .moved = mem_array((size_t)m->day_count + 1, sizeof *t->moved),
                    .seen = mem_array((size_t)m->last_day + 1, sizeof *t->seen) };
  if (m->costs) t->costs = reckoning_array(m->costs);
  return t;
}

void risk_trial_free(RiskTrial *t)
{
  mem_free(t->values);
  mem_free(t->efforts);
  mem_free(t->costs);
  mem_free(t->minutes);
  mem_free(t->scratch);
  mem_free(t->start);
  mem_free(t->finish);
  mem_free(t->shares);
  mem_free(t->reworked);
  mem_free(t->moved);
  mem_free(t->seen);
  mem_free(t);
}

/* ---- drawing */

static PhiloxBlock block_of(const RiskModel *m, uint32_t trial, Stream stream, int number)
{
  return philox((uint64_t)m->setting->seed, (PhiloxBlock){ { trial, (uint32_t)number, stream, 0 } });
}

uint32_t risk_trial_word(const RiskModel *m, uint32_t trial, int input)
{
  return block_of(m, trial, STREAM_INPUTS, input / PHILOX_WORDS).word[input % PHILOX_WORDS];
}

/* A lognormal's tail may leave what makes sense of a rate: no value is below a tenth of the low one. */
static double drawn(const RiskInput *input, double fraction)
{
  if (input->spread == NULL) return input->likely;
  return fmax(spread_at(input->spread, fraction), 0.1 * input->low);
}

void risk_trial_draw(RiskTrial *t, uint32_t trial)
{
  const RiskModel *m = t->m;
  t->trial = trial;
  t->likely = false;
  for (int i = 0; i < m->input_count; i += PHILOX_WORDS) {
    PhiloxBlock block = block_of(m, trial, STREAM_INPUTS, i / PHILOX_WORDS);
    for (int k = 0; k < PHILOX_WORDS && i + k < m->input_count; k++)
      t->values[i + k] = drawn(&m->inputs[i + k], philox_fraction(block.word[k]));
  }
  double chance = m->setting->rework.figure.value;
  for (int i = 0; i < m->rework_count; i += PHILOX_WORDS) {
    PhiloxBlock block = block_of(m, trial, STREAM_REWORK, i / PHILOX_WORDS);
    for (int k = 0; k < PHILOX_WORDS; k++) t->reworked[i + k] = philox_fraction(block.word[k]) < chance;
  }
}

void risk_trial_likely(RiskTrial *t)
{
  t->likely = true;
  for (int i = 0; i < t->m->input_count; i++) t->values[i] = t->m->inputs[i].likely;
  memset(t->reworked, 0, (size_t)t->m->rework_count * sizeof *t->reworked);
}

void risk_trial_set(RiskTrial *t, int input, double value) { t->values[input] = value; }

/* ---- minutes */

static int minutes_of(const RiskTrial *t, const RiskWork *work)
{
  const int *factor = work->factor;
  double minutes = t->efforts[work->place];
  if (factor[FACTOR_PRODUCTION] >= 0) minutes /= t->values[factor[FACTOR_PRODUCTION]];
  for (int k = FACTOR_HARDNESS; k < FACTOR_KINDS; k++)
    if (factor[k] >= 0) minutes *= t->values[factor[k]];
  if (work->rework >= 0 && t->reworked[work->rework]) minutes *= 2;
  if (!(minutes < LONGEST_MIN)) return work->planned_min;
  return plan_whole_minutes(minutes);
}

static void work_out_minutes(RiskTrial *t)
{
  const RiskModel *m = t->m;
  memcpy(t->efforts, t->values, (size_t)m->figure_count * sizeof *t->efforts);
  reckoning_run(m->efforts, t->efforts);
  for (int i = 0; i < m->work_count; i++) t->minutes[i] = minutes_of(t, &m->work[i]);
}

/* ---- days lost as a whole: what would be done on a day of work is done on the next one that is not lost */

static int place_of_day(const RiskModel *m, int minute)
{
  int day = (minute - 1 - m->day_from_min) / DAY_MIN;
  if (minute <= m->day_from_min) day = 0;
  return m->day_index[day < m->last_day ? day : m->last_day];
}

static bool is_lost(const RiskTrial *t, int place, PhiloxBlock *block, int *number)
{
  if (*number != place / PHILOX_WORDS) {
    *number = place / PHILOX_WORDS;
    *block = block_of(t->m, t->trial, STREAM_LOST_DAYS, *number);
  }
  return philox_fraction(block->word[place % PHILOX_WORDS]) < t->m->setting->lost_days.figure.value;
}

/* Days lost up to the finish. */
static int lose_days(RiskTrial *t, int finish)
{
  const RiskModel *m = t->m;
  t->moved_count = 0;
  if (t->likely || !m->setting->lost_days.given || m->day_count == 0) return 0;
  int last = place_of_day(m, finish), at = 0, number = -1;
  PhiloxBlock block = { { 0 } };
  for (int place = 0; place <= last; place++, at++) {
    while (at < m->day_count - 1 && is_lost(t, at, &block, &number)) at++;
    t->moved[place] = at < m->day_count ? at : m->day_count - 1;
  }
  t->moved_count = last + 1;
  return t->moved[last] - last;
}

static int moved(const RiskTrial *t, int minute)
{
  if (t->moved_count == 0) return minute;
  int place = place_of_day(t->m, minute);
  if (place >= t->moved_count) place = t->moved_count - 1;
  return minute + (t->m->days[t->moved[place]] - t->m->days[place]) * DAY_MIN;
}

/* ---- hours, days and money */

static int day_not_seen(RiskTrial *t, int minute)
{
  int day = t->m->days[place_of_day(t->m, minute + 1)];
  bool is_new = t->seen[day] != t->run;
  t->seen[day] = t->run;
  return is_new;
}

static int days_worked(RiskTrial *t)
{
  const RiskModel *m = t->m;
  int days = 0;
  t->run++;
  for (int i = 0; i < m->work_count; i++) {
    const Calendar *hours = retiming_hours(m->retiming, i);
    if (!m->work[i].attended || t->minutes[i] == 0 || hours == NULL) continue;
    int piece = retiming_piece(m->retiming, t->scratch, i);
    for (; piece < (int)hours->count && hours->open[piece].begin < t->finish[i]; piece++)
      days += day_not_seen(t, hours->open[piece].begin);
  }
  return days;
}

static void count_shares(RiskTrial *t, int lost)
{
  const RiskModel *m = t->m;
  int worked = m->crew_count + m->machine_count;
  memset(t->shares, 0, (size_t)m->share_count * sizeof *t->shares);
  for (int i = 0; i < m->minutes_count; i++)
    t->shares[m->minutes[i].share] += m->minutes[i].times * t->minutes[m->minutes[i].activity];
  t->shares[worked] = days_worked(t);
  t->shares[worked + 1] = t->shares[worked] + lost;
  for (int i = 0; i < m->share_count; i++) t->shares[i] = m->counted[i] > 0 ? t->shares[i] / m->counted[i] : 1;
}

static double price(RiskTrial *t, int lost)
{
  const RiskModel *m = t->m;
  if (m->costs == NULL) return 0;
  count_shares(t, lost);
  memcpy(t->costs, t->values, (size_t)m->figure_count * sizeof *t->costs);
  for (int i = 0; i < m->leaf_count; i++)
    t->costs[m->figure_count + i] = m->leaves[i].value * t->shares[m->leaves[i].share];
  reckoning_run(m->costs, t->costs);
  return t->costs[m->cost_place];
}

RiskOutcome risk_trial_run(RiskTrial *t)
{
  const RiskModel *m = t->m;
  RiskOutcome out = { 0 };
  work_out_minutes(t);
  out.squeezed = !retiming_run(m->retiming, t->minutes, t->scratch, t->start, t->finish);
  for (int i = 0; i < m->work_count; i++)
    if (t->finish[i] > out.finish) out.finish = t->finish[i];
  out.lost_days = lose_days(t, out.finish);
  out.finish = moved(t, out.finish);
  for (int i = 0; i < m->rework_count; i++) out.reworked += t->reworked[i];
  out.cost = price(t, out.lost_days);
  return out;
}

int risk_trial_area_finish(const RiskTrial *t, int area)
{
  int finish = 0;
  for (int i = 0; i < t->m->work_count; i++)
    if (t->m->plan->activities[i].area == area && t->finish[i] > finish) finish = t->finish[i];
  return moved(t, finish);
}
