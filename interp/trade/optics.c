/* optics.c - Fresnel reflectance, gloss units, and reflection of slightly rough surfaces. */
#include "trade/optics.h"

#include <math.h>

static const double PI = 3.14159265358979323846, BLACK_GLASS = 1.567;

const TradeFormula optics_formulas[] = {
  { "optics.fresnel", "R = (((cos t - q)/(cos t + q))^2 + ((n^2 cos t - q)/(n^2 cos t + q))^2) / 2, "
                      "q = sqrt(n^2 - sin^2 t)",
    { TRADE_CONFIRMED, "Fresnel equations; the form at normal incidence on an encyclopaedia page" },
    "Share of unpolarised light that a smooth surface of index n (1 to 4) mirrors at angle t from the normal." },
  { "optics.gloss", "GU = 100 R / R(1.567)",
    { TRADE_FROM_MEMORY, "ASTM D523, ISO 2813: polished black glass of index 1.567 reads 100" },
    "Gloss units at 20, 60 or 85 degrees of a surface that mirrors the share R of the light." },
  { "optics.rough_share", "R / R0 = exp(-(4 pi s cos t / w)^2)",
    { TRADE_FROM_MEMORY, "Davies 1954; Bennett and Porteus 1961, with the usual cosine for other angles" },
    "Share of the mirror reflection that is left at rms height s and wavelength w, s at most w / 5." },
  { "optics.rms", "Rq = Ra sqrt(pi / 2), Gaussian; Rq = Ra pi / sqrt(8), sine wave",
    { TRADE_FROM_MEMORY, "moments of the two height distributions" },
    "Root mean square roughness from the arithmetic mean. One public page gives the sine figure for a Gaussian." },
  { 0 }
};

static double fresnel(double index, double angle_deg)
{
  double cosine = cos(angle_deg * PI / 180), sine = sin(angle_deg * PI / 180);
  double q = sqrt(index * index - sine * sine);
  double across = (cosine - q) / (cosine + q);
  double within = (index * index * cosine - q) / (index * index * cosine + q);
  return (across * across + within * within) / 2;
}

static bool check_angle(double angle_deg, TradeError *error)
{
  if (!trade_in_range(error, "angle_deg", angle_deg, 0, 90)) return false;
  return angle_deg < 90 ||
         trade_refuse(error, TRADE_OUT_OF_RANGE, "angle_deg", angle_deg, "angle_deg is 90, must be below it");
}

bool optics_fresnel(double index, double angle_deg, double *reflectance, TradeError *error)
{
  if (!trade_in_range(error, "index", index, 1, 4) || !check_angle(angle_deg, error)) return false;
  *reflectance = fresnel(index, angle_deg);
  return true;
}

bool optics_gloss(double reflectance, double angle_deg, double *gloss_gu, TradeError *error)
{
  if (!trade_in_range(error, "reflectance", reflectance, 0, 1)) return false;
  if (angle_deg != 20 && angle_deg != 60 && angle_deg != 85)
    return trade_refuse(error, TRADE_UNKNOWN, "angle_deg", angle_deg,
                        "gloss is read at 20, 60 or 85 degrees, not %g", angle_deg);
  *gloss_gu = 100 * reflectance / fresnel(BLACK_GLASS, angle_deg);
  return true;
}

bool optics_gloss_ceiling(double index, double angle_deg, double *gloss_gu, TradeError *error)
{
  double reflectance;
  return optics_fresnel(index, angle_deg, &reflectance, error) &&
         optics_gloss(reflectance, angle_deg, gloss_gu, error);
}

bool optics_rough_share(double rms_nm, double wavelength_nm, double angle_deg, double *share, TradeError *error)
{
  if (!trade_in_range(error, "wavelength_nm", wavelength_nm, 380, 780) || !check_angle(angle_deg, error) ||
      !trade_in_range(error, "rms_nm", rms_nm, 0, wavelength_nm / 5))
    return false;
  double phase = 4 * PI * rms_nm * cos(angle_deg * PI / 180) / wavelength_nm;
  *share = exp(-phase * phase);
  return true;
}

bool optics_rms(double ra, OpticsProfile profile, double *rms, TradeError *error)
{
  if (!trade_in_range(error, "ra", ra, 0, INFINITY)) return false;
  *rms = ra * (profile == OPTICS_GAUSSIAN ? sqrt(PI / 2) : PI / sqrt(8));
  return true;
}
