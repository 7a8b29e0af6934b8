/* appearance.c - charts of appearance levels, haze, and how many readings to take. */
#include "trade/appearance.h"

#include <math.h>

#define ROWS(table) (sizeof(table) / sizeof *(table))

const TradeFormula appearance_formulas[] = {
  { "appearance.level",
    "1: [0,10) flat  2: [10,40) satin  3: [40,70) polished  4: [70,100] highly polished",
    { TRADE_CONFIRMED, "chart of the polishing council on a contractor's page; half-open bands are ours" },
    "Appearance level from image clarity in percent, ASTM D5767, judged before any guard." },
  { "appearance.image_clarity",
    "C = 100 (M - m) / (M + m)",
    { TRADE_FROM_MEMORY, "ASTM D5767" },
    "Image clarity in percent from the greatest and least light through an optical comb." },
  { "appearance.haze",
    "H = G60 - G20, for G60 > 70",
    { TRADE_CONFIRMED, "technical guide to ASTM D4039" },
    "Haze index in gloss units. Below a 60 degree gloss of 70 the method does not apply." },
  { "appearance.gloss_angle",
    "G60 > 70: also 20 deg; G60 < 10: 85 deg; else 60 deg",
    { TRADE_CONFIRMED, "summary of ASTM D523, laboratory and trade press pages" },
    "The angle at which gloss is read, from a first reading at 60 degrees." },
  { "appearance.readings",
    "n = 3 + ceil((area - 1000) / 1000), at least 3",
    { TRADE_CONFIRMED, "guide specification page; rounding a part up is ours" },
    "Places to read image clarity and haze on an area in sq ft." },
  { 0 }
};

static const AppearanceLevel levels[] = {
  { 1, "flat", 0, 10 }, { 2, "satin", 10, 40 }, { 3, "polished", 40, 70 }, { 4, "highly polished", 70, 100 },
};

static const GlossLevel gloss_levels[] = {
  { 1, "flat", "below 100", 4, 0, 0 },
  { 2, "satin", "100 to 400", 5, 40, 50 },
  { 3, "semi-polished", "400 to 800, or 800 and up", 6, 50, 60 }, /* the two pages differ on the grit */
  { 4, "highly polished", "over 800, to 3000", 7, 60, 80 },
};

const AppearanceLevel *appearance_level_at(size_t index)
{
  return index < ROWS(levels) ? &levels[index] : NULL;
}

const GlossLevel *appearance_gloss_level_at(size_t index)
{
  return index < ROWS(gloss_levels) ? &gloss_levels[index] : NULL;
}

bool appearance_level(double doi_pct, const AppearanceLevel **out, TradeError *error)
{
  if (!trade_in_range(error, "doi_pct", doi_pct, 0, 100)) return false;
  size_t i = 0;
  while (i + 1 < ROWS(levels) && doi_pct >= levels[i].below_doi) i++;
  *out = &levels[i];
  return true;
}

bool appearance_image_clarity(double most, double least, double *clarity_pct, TradeError *error)
{
  if (!trade_positive(error, "most", most) || !trade_in_range(error, "least", least, 0, most)) return false;
  *clarity_pct = 100 * (most - least) / (most + least);
  return true;
}

bool appearance_haze(double gloss60_gu, double gloss20_gu, double *haze_gu, TradeError *error)
{
  if (!trade_in_range(error, "gloss20_gu", gloss20_gu, 0, 2100) ||
      !trade_in_range(error, "gloss60_gu", gloss60_gu, 0, 1000))
    return false;
  if (gloss60_gu <= 70)
    return trade_refuse(error, TRADE_OUT_OF_RANGE, "gloss60_gu", gloss60_gu,
                        "haze is defined for a 60 degree gloss above 70, this is %g", gloss60_gu);
  *haze_gu = gloss60_gu - gloss20_gu;
  return true;
}

bool appearance_gloss_angle(double gloss60_gu, int *angle_deg, TradeError *error)
{
  if (!trade_in_range(error, "gloss60_gu", gloss60_gu, 0, 1000)) return false;
  *angle_deg = gloss60_gu > 70 ? 20 : gloss60_gu < 10 ? 85 : 60;
  return true;
}

bool appearance_readings(double area_sqft, int *readings, TradeError *error)
{
  if (!trade_positive(error, "area_sqft", area_sqft) || !trade_in_range(error, "area_sqft", area_sqft, 0, 1e9))
    return false;
  double further = ceil((area_sqft - 1000) / 1000 - 1e-9); /* rounding may not add a reading */
  *readings = 3 + (further > 0 ? (int)further : 0);
  return true;
}
