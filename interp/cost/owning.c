#include "cost/owning.h"

static bool is_fraction(double value) { return value >= 0 && value <= 1; }

bool owning_hour(const Owned *m, Owning *out)
{
  if (!(m->price > 0 && m->year_h > 0 && m->life_h >= m->year_h)) return false;
  if (!is_fraction(m->salvage) || !is_fraction(m->interest)) return false;
  double years = m->life_h / m->year_h;
  out->depreciation = m->price * (1 - m->salvage) / m->life_h;
  out->average_value = ((years - 1) * (1 + m->salvage) + 2) / (2 * years);
  out->capital = m->price * out->average_value * m->interest / m->year_h;
  return true;
}
