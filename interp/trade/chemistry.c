/* chemistry.c - the catalogue of liquids, volumes, dose by absorption test, return to service. */
#include "trade/chemistry.h"

#include <math.h>
#include <string.h>

#include "trade/customary.h"

#define RATE(low, high) (low) * SQFT_PER_GALLON_M2_L, (high) * SQFT_PER_GALLON_M2_L
#define NO_PH NAN, NAN
#define CAUSTIC 10.5, 12.5 /* silicates: confirmed, trade press letter */
enum { MOST_COATS = 20 };

static const Chemistry rows[] = {
  { "sodium silicate", CHEMISTRY_DENSIFIER, RATE(150, 300), 30, 60, 0, 0, CAUSTIC, .must_be_removed = true,
    .basis = { TRADE_COMMON_PRACTICE, "spread and dwell: common practice; removal: trade press" },
    .care = "keep wet, scrub and flush: what is left whitens" },
  { "potassium silicate", CHEMISTRY_DENSIFIER, RATE(200, 500), 30, 60, 0, 0, CAUSTIC, .must_be_removed = true,
    .basis = { TRADE_COMMON_PRACTICE, "spread and dwell: common practice; removal: trade press" },
    .care = "keep wet, remove the excess: what is left whitens" },
  { "lithium silicate", CHEMISTRY_DENSIFIER, RATE(400, 800), 0, 0, 30, 60, CAUSTIC,
    .basis = { TRADE_COMMON_PRACTICE, "spread and dry time: common practice; whitening: trade press" },
    .care = "do not over-apply: it whitens; remove the dust once dry" },
  { "colloidal silica", CHEMISTRY_DENSIFIER, RATE(400, 800), 0, 0, 15, 60, NO_PH,
    .basis = { TRADE_COMMON_PRACTICE, "common practice" },
    .care = "no puddles: spread or pick up what stands before it dries" },
  { "acetone dye", CHEMISTRY_DYE, RATE(300, 500), 0, 0, 5, 30, NO_PH, .needs_dry_floor = true, .is_flammable = true,
    .basis = { TRADE_COMMON_PRACTICE, "common practice; 400 sqft/gal a coat confirmed by a supplier's job page" },
    .care = "flammable, vapour heavier than air: ventilate, no ignition source; wipe the residue" },
  { "water dye", CHEMISTRY_DYE, RATE(250, 500), 0, 0, 60, 240, NO_PH, .needs_dry_floor = true,
    .basis = { TRADE_COMMON_PRACTICE, "common practice; 2 to 4 h dry confirmed by a trade reference page" },
    .care = "let it dry through before the next step" },
  { "acid stain", CHEMISTRY_STAIN, RATE(150, 300), 240, 1440, 0, 0, NO_PH, .must_be_removed = true,
    .must_be_neutralised = true, .needs_dry_floor = true,
    .basis = { TRADE_CONFIRMED, "trade reference page; 5 L on 30 m2 by a supplier page" },
    .care = "neutralise, rinse and dry before densifying" },
  { "guard", CHEMISTRY_GUARD, RATE(1000, 2500), 0, 0, 20, 60, NO_PH, .needs_dry_floor = true,
    .basis = { TRADE_COMMON_PRACTICE, "common practice" }, .care = "thin coats; surface 3 K above the dew point" },
};

const Chemistry *chemistry_at(size_t index)
{
  return index < sizeof rows / sizeof *rows ? &rows[index] : NULL;
}

bool chemistry_find(const char *name, const Chemistry **out, TradeError *error)
{
  for (size_t i = 0; chemistry_at(i); i++)
    if (strcmp(rows[i].name, name) == 0) {
      *out = &rows[i];
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "name", 0, "no liquid is called `%s`", name);
}

bool chemistry_volume(double area_m2, double spread_m2_l, int coats, double waste, double *volume_l,
                      TradeError *error)
{
  if (!trade_positive(error, "area_m2", area_m2) || !trade_in_range(error, "area_m2", area_m2, 0, 1e7)
      || !trade_in_range(error, "spread_m2_l", spread_m2_l, 0.1, 1000)
      || !trade_in_range(error, "coats", coats, 1, MOST_COATS) || !trade_in_range(error, "waste", waste, 0, 1))
    return false;
  *volume_l = area_m2 * coats / spread_m2_l * (1 + waste);
  return true;
}

static bool series_is_valid(const AbsorptionTest *test, TradeError *error)
{
  const double wobble = 0.05; /* reading error that a falling series may show */
  for (int i = 0; i < test->coats; i++) {
    if (!trade_in_range(error, "absorbed", test->absorbed[i], 0, 1)) return false;
    if (i && test->absorbed[i] > test->absorbed[i - 1] + wobble)
      return trade_refuse(error, TRADE_OUT_OF_RANGE, "absorbed", test->absorbed[i],
                          "coat %d took %g of itself after %g before it: a floor does not open up again", i + 1,
                          test->absorbed[i], test->absorbed[i - 1]);
  }
  return true;
}

static bool test_is_valid(const AbsorptionTest *test, TradeError *error)
{
  return trade_in_range(error, "coats", test->coats, 1, MOST_COATS)
         && trade_in_range(error, "spread_m2_l", test->spread_m2_l, 0.1, 1000)
         && trade_in_range(error, "refusal", test->refusal, 0.001, 0.999) && series_is_valid(test, error);
}

/* Mean ratio of one coat's share to the one before. Fails when the series does not fall. */
static bool falling_ratio(const AbsorptionTest *test, double *ratio, TradeError *error)
{
  if (test->coats < 2)
    return trade_refuse(error, TRADE_TOO_FEW, "coats", test->coats,
                        "the test stopped before refusal after one coat; two are needed to carry it on");
  double fall = pow(test->absorbed[test->coats - 1] / test->absorbed[0], 1.0 / (test->coats - 1));
  if (!(fall < 1))
    return trade_refuse(error, TRADE_NO_ANSWER, "absorbed", test->absorbed[test->coats - 1],
                        "the floor took as much of the last coat as of the first: no refusal in sight");
  *ratio = fall;
  return true;
}

bool chemistry_until_refusal(const AbsorptionTest *test, RefusalDose *out, TradeError *error)
{
  if (!test_is_valid(test, error)) return false;
  double taken = 0, share = 0, ratio = 1;
  int coats = 0;
  bool extrapolated = false;
  for (;; coats++) {
    if (coats < test->coats) {
      share = test->absorbed[coats];
    } else {
      if (!extrapolated && !falling_ratio(test, &ratio, error)) return false;
      extrapolated = true;
      share *= ratio;
    }
    if (share < test->refusal) break;
    if (coats == MOST_COATS)
      return trade_refuse(error, TRADE_NO_ANSWER, "coats", coats, "the floor takes more than %d coats", MOST_COATS);
    taken += share;
  }
  double coat_l_m2 = 1 / test->spread_m2_l;
  *out = (RefusalDose){ coats, coats * coat_l_m2, taken * coat_l_m2, (coats - taken) * coat_l_m2, extrapolated };
  return true;
}

#define PRACTICE { TRADE_COMMON_PRACTICE, "common practice" }
const ReturnToService chemistry_return_to_service[] = {
  { "light foot", 2, 4, PRACTICE },
  { "full foot and water", 24, 24, PRACTICE },
  { "wheels and forks", 48, 72, PRACTICE },
  { "wet cleaning with chemicals", 168, 168, PRACTICE },
  { .traffic = NULL }
};

bool chemistry_opens_after(const char *traffic, const ReturnToService **out, TradeError *error)
{
  for (const ReturnToService *row = chemistry_return_to_service; row->traffic; row++)
    if (strcmp(row->traffic, traffic) == 0) {
      *out = row;
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "traffic", 0, "no traffic is called `%s`", traffic);
}

const TradeFormula chemistry_formulas[] = {
  { "chemistry.volume", "volume L = area * coats / spread * (1 + waste)",
    { TRADE_COMPUTED, "area over spread rate" },
    "Liquid for an area at a spread rate (m2/L a coat) with an allowance for waste as a fraction." },
  { "chemistry.until_refusal", "coats n while absorbed_n >= refusal; dose = sum(absorbed) / spread",
    { TRADE_COMMON_PRACTICE, "apply until the floor rejects more: association officer in trade press; the series "
                             "and its geometric continuation are ours" },
    "Coats and dose from a trial patch: the share of each coat that soaked in, until a coat is refused." },
  { "chemistry.opens_after", "row of the table by traffic", { TRADE_COMMON_PRACTICE, "common practice" },
    "Hours after the last guard coat before a kind of traffic may come back." },
  { .id = NULL }
};
