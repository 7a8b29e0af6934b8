/* optics.h - what light allows: reflectance of smooth and slightly rough surfaces, and the scale of gloss units.
 *
 *     q  = sqrt(n^2 - sin^2 t)
 *     R  = (((cos t - q) / (cos t + q))^2 + ((n^2 cos t - q) / (n^2 cos t + q))^2) / 2        Fresnel, unpolarised
 *     GU = 100 R / R(1.567)          polished black glass of index 1.567 reads 100 at each angle (ASTM D523)
 *     R / R0 = exp(-(4 pi s cos t / w)^2)                                       Davies 1954, Bennett-Porteus 1961
 *
 * Fresnel at normal incidence is confirmed (encyclopaedia page); the index 1.567 and the rough form are from
 * memory. Angles are from the normal. These bound what a floor can read; they do not say what it will read. */
#ifndef TRADE_OPTICS_H
#define TRADE_OPTICS_H

#include "trade/trade.h"

/* Reflectance 0 to 1. 1 <= index <= 4; 0 <= angle_deg < 90. */
bool optics_fresnel(double index, double angle_deg, double *reflectance, TradeError *error);

/* Gloss of a surface that reflects this share at an angle of the standard: 20, 60 or 85 degrees; 0 to 1. A perfect
 * mirror reads 999, 2038 and 161.5 at 60, 20 and 85 degrees. */
bool optics_gloss(double reflectance, double angle_deg, double *gloss_gu, TradeError *error);

/* The most a perfectly smooth bare surface of this index can read: 87 to 114 at 60 degrees for paste and quartz. A
 * reading far above it points to a film, to metal or to a fault of the meter. */
bool optics_gloss_ceiling(double index, double angle_deg, double *gloss_gu, TradeError *error);

/* Share of the mirror reflection that roughness leaves. Valid for heights well below the wavelength; rms_nm above a
 * fifth of it is refused (our reading of "much less"), so floors after metal or coarse resin are out: use the curve
 * in sheen.h there. 0 <= rms_nm; 380 <= wavelength_nm <= 780; 0 <= angle_deg < 90. */
bool optics_rough_share(double rms_nm, double wavelength_nm, double angle_deg, double *share, TradeError *error);

/* Root mean square from mean roughness Ra, in the same unit: sqrt(pi / 2) = 1.253 for heights that scatter like a
 * Gaussian, pi / sqrt(8) = 1.111 for a sine wave. */
typedef enum { OPTICS_GAUSSIAN, OPTICS_SINE } OpticsProfile;
bool optics_rms(double ra, OpticsProfile profile, double *rms, TradeError *error);

extern const TradeFormula optics_formulas[];

#endif
