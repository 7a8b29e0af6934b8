/* appearance.h - the levels a finish is specified and accepted by: image clarity, gloss, haze, how many readings.
 *
 * The current chart (2017) goes by image clarity and is confirmed on a contractor's page; the levels by gloss that
 * it replaced are still on drawings. Judge before any guard: a film lifts readings and refines nothing. */
#ifndef TRADE_APPEARANCE_H
#define TRADE_APPEARANCE_H

#include "trade/trade.h"

/* Appearance level 1 to 4 by image clarity (DOI, ASTM D5767), 0 to 100 percent. The chart prints whole numbers; for
 * readings between them the bands are half open, [0,10) [10,40) [40,70) [70,100], our interpretation. */
typedef struct {
  int level;
  const char *name;
  double from_doi, below_doi; /* level 4 includes 100 */
} AppearanceLevel;
bool appearance_level(double doi_pct, const AppearanceLevel **out, TradeError *error);
const AppearanceLevel *appearance_level_at(size_t index); /* NULL past the last */

/* The superseded levels by gloss, still on drawings. Gloss 0 0 where it states none. */
typedef struct {
  int level;
  const char *name, *final_grit;
  int least_passes;
  double low_gu, high_gu;
} GlossLevel;
/* Confirmed, two contractors' pages; NULL past the last. */
const GlossLevel *appearance_gloss_level_at(size_t index);

/* Image clarity C = 100 (M - m) / (M + m) of the light through the comb. 0 <= least <= most, most > 0. */
bool appearance_image_clarity(double most, double least, double *clarity_pct, TradeError *error);

/* Haze index G60 - G20 of ASTM D4039, for G60 above 70 only. The chart wants it under 10. */
bool appearance_haze(double gloss60_gu, double gloss20_gu, double *haze_gu, TradeError *error);

/* The angle to read at by ASTM D523, given the reading at 60 degrees: 20 above 70 GU (as well as 60), 85 below 10
 * (instead of it), else 60. */
bool appearance_gloss_angle(double gloss60_gu, int *angle_deg, TradeError *error);

/* Places to read clarity and haze: 3 for the first 1,000 sq ft and 1 for each further 1,000; a part counts as a
 * whole (rounding is ours). area_sqft > 0. */
bool appearance_readings(double area_sqft, int *readings, TradeError *error);

extern const TradeFormula appearance_formulas[];

#endif
