/* appearance.h - the classes a finish is specified and accepted by: exposure, appearance level, haze, readings.
 *
 * Charts have editions. The letter C means medium aggregate in the chart before 2017 and coarse aggregate since;
 * cut depths belong to the older chart only. So classes are asked for by edition, and a depth of the current chart
 * has no answer. Both charts are confirmed (trade news and contractors' pages); depths are approximate. */
#ifndef TRADE_APPEARANCE_H
#define TRADE_APPEARANCE_H

#include "trade/trade.h"

typedef enum { CHART_CURRENT, CHART_BEFORE_2017 } ChartEdition;

/* Shares of the surface in percent; 0 where the chart does not speak of it. The older chart has no shares, the
 * current one no depths. */
typedef struct {
  ChartEdition edition;
  char letter;      /* 'A'; 0 for random exposure */
  const char *name; /* "fine aggregate" */
  double main_low, main_high, rest_low, rest_high;
  double cut_mm; /* approximate; 0 in the current chart */
  const char *cut_says; /* "1/16 in", as the chart has it */
  Basis basis;
} ExposureClass;

const ExposureClass *exposure_class_at(size_t index); /* NULL past the last */

/* By letter or by name, in an edition; refuses unknown ones as "exposure". */
bool exposure_find(ChartEdition edition, const char *name, const ExposureClass **out, TradeError *error);

/* The class of the current chart for a surface made up of these percentages, which must add up to 100 (within 0.5).
 * Refuses a make-up that fits none. */
bool exposure_of_surface(double fines_pct, double fine_aggregate_pct, double coarse_aggregate_pct,
                         const ExposureClass **out, TradeError *error);

/* Approximate cut of a class in mm. The current chart gives none: refused as "edition". */
bool exposure_cut_depth(const ExposureClass *exposure, double *cut_mm, TradeError *error);

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
