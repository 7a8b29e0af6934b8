/* aggregate.c - charts of exposed aggregate. */
#include "trade/aggregate.h"

#include <string.h>

#define ROWS(table) (sizeof(table) / sizeof *(table))

const TradeFormula aggregate_formulas[] = {
  { "aggregate.of_surface",
    "share of the main constituent within its band, the rest within its own",
    { TRADE_CONFIRMED, "exposure chart of the polishing council, 2017 revision, in trade news" },
    "Exposure class from the percentages of cement fines, fine and coarse aggregate at the surface." },
  { 0 }
};

#define CHART_2017 { TRADE_CONFIRMED, "polishing council chart, 2017 revision, in trade news" }
#define CHART_OLD { TRADE_CONFIRMED, "contractors' pages citing the older association chart" }

static const AggregateClass exposures[] = {
  { CHART_CURRENT, 'A', "cement fines", 85, 95, 5, 15, 0, "", CHART_2017 },
  { CHART_CURRENT, 'B', "fine aggregate", 85, 95, 5, 15, 0, "", CHART_2017 },
  { CHART_CURRENT, 'C', "coarse aggregate", 80, 90, 10, 20, 0, "", CHART_2017 },
  { CHART_BEFORE_2017, 'A', "cream", 0, 0, 0, 0, 0, "very little, under 1/16 in", CHART_OLD },
  { CHART_BEFORE_2017, 'B', "fine aggregate", 0, 0, 0, 0, 1.5875, "1/16 in", CHART_OLD },
  { CHART_BEFORE_2017, 'C', "medium aggregate", 0, 0, 0, 0, 3.175, "1/8 in", CHART_OLD },
  { CHART_BEFORE_2017, 'D', "large aggregate", 0, 0, 0, 0, 6.35, "1/4 in or more", CHART_OLD },
  { CHART_BEFORE_2017, 0, "random exposure", 0, 0, 0, 0, 6.35, "about 1/4 in, mixed", CHART_OLD },
};

static bool is_called(const AggregateClass *exposure, const char *name)
{
  bool by_letter = exposure->letter && name[0] == exposure->letter && name[1] == '\0';
  return by_letter || strcmp(exposure->name, name) == 0;
}

bool aggregate_find(ChartEdition edition, const char *name, const AggregateClass **out, TradeError *error)
{
  for (size_t i = 0; i < ROWS(exposures); i++)
    if (exposures[i].edition == edition && is_called(&exposures[i], name)) {
      *out = &exposures[i];
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "exposure", 0, "the %s chart has no class `%.40s`",
                      edition == CHART_CURRENT ? "current" : "older", name);
}

static bool within(double v, double low, double high)
{
  return v >= low && v <= high;
}

bool aggregate_of_surface(double fines_pct, double fine_aggregate_pct, double coarse_aggregate_pct,
                         const AggregateClass **out, TradeError *error)
{
  if (!trade_in_range(error, "fines_pct", fines_pct, 0, 100) ||
      !trade_in_range(error, "fine_aggregate_pct", fine_aggregate_pct, 0, 100) ||
      !trade_in_range(error, "coarse_aggregate_pct", coarse_aggregate_pct, 0, 100) ||
      !trade_in_range(error, "sum_pct", fines_pct + fine_aggregate_pct + coarse_aggregate_pct, 99.5, 100.5))
    return false;
  /* What each class is made of, and the rest: class A allows no coarse aggregate. */
  const double main_pct[] = { fines_pct, fine_aggregate_pct, coarse_aggregate_pct };
  const double rest_pct[] = { fine_aggregate_pct, fines_pct + coarse_aggregate_pct,
                              fines_pct + fine_aggregate_pct };
  for (size_t i = 0; i < 3; i++)
    if (within(main_pct[i], exposures[i].main_low, exposures[i].main_high) &&
        within(rest_pct[i], exposures[i].rest_low, exposures[i].rest_high)) {
      *out = &exposures[i];
      return true;
    }
  return trade_refuse(error, TRADE_NO_ANSWER, "fines_pct", fines_pct,
                      "no class has %g %% fines, %g %% fine and %g %% coarse aggregate", fines_pct,
                      fine_aggregate_pct, coarse_aggregate_pct);
}

bool aggregate_cut_depth(const AggregateClass *exposure, double *cut_mm, TradeError *error)
{
  if (exposure->edition == CHART_CURRENT)
    return trade_refuse(error, TRADE_NO_ANSWER, "edition", 0,
                        "the chart of 2017 dropped cut depths: agree on a sample, or name the older chart");
  if (exposure->cut_mm == 0)
    return trade_refuse(error, TRADE_NO_ANSWER, "exposure", 0, "class %c has no depth, only a limit: %s",
                        exposure->letter, exposure->cut_says);
  *cut_mm = exposure->cut_mm;
  return true;
}
