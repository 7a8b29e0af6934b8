/* slip.c - categories of use and their least friction. */
#include "trade/slip.h"

#include <string.h>

static const char edition[] = "ANSI A326.3 (2022)";

static const SlipCategory categories[] = {
  { "interior dry", "ID", false, 0.42, edition, { TRADE_FROM_MEMORY, "ANSI A326.3" } },
  { "interior wet", "IW", true, 0.42, edition, { TRADE_CONFIRMED, "trade press; also ANSI A137.1 (2012)" } },
  { "interior wet plus", "IW+", true, 0.50, edition, { TRADE_FROM_MEMORY, "ANSI A326.3" } },
  { "exterior wet", "EW", true, 0.55, edition, { TRADE_FROM_MEMORY, "ANSI A326.3" } },
  { "oils and greases", "O/G", true, 0.55, edition, { TRADE_FROM_MEMORY, "ANSI A326.3" } },
};

const SlipCategory *slip_category_at(size_t index)
{
  return index < sizeof categories / sizeof *categories ? &categories[index] : NULL;
}

bool slip_category(const char *id, const SlipCategory **out, TradeError *error)
{
  for (size_t i = 0; slip_category_at(i); i++)
    if (strcmp(categories[i].id, id) == 0) {
      *out = &categories[i];
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "id", 0, "no use of a floor is called `%s`", id);
}

bool slip_check(const SlipCategory *category, double dcof, bool taken_wet, bool *holds, TradeError *error)
{
  if (!trade_in_range(error, "dcof", dcof, 0, 2)) return false;
  if (category->is_wet && !taken_wet)
    return trade_refuse(error, TRADE_NO_ANSWER, "taken_wet", 0, "`%s` is judged by a wet reading, this one is dry",
                        category->id);
  *holds = dcof >= category->least_dcof;
  return true;
}

const TradeFormula slip_formulas[] = {
  { "slip.check", "DCOF >= least of the category, 0.42 to 0.55",
    { TRADE_CONFIRMED, "ANSI A137.1 (2012) and A326.3; single values of 2022 from memory" },
    "Whether a reading keeps to the least friction for the use. The standard says a reading does not predict "
    "slips." },
  { .id = NULL }
};
