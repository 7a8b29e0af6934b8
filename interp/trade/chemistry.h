/* chemistry.h - liquids put on the floor: kinds, how much a floor takes, when it may be used again.
 *
 * The rows are kinds of liquid, never products; a product's data sheet comes first. Figures are bands of common
 * practice unless the row says otherwise.
 *
 *     volume L = area * coats / spread * (1 + waste)
 *     a coat is refused once the floor takes less than `refusal` of it */
#ifndef TRADE_CHEMISTRY_H
#define TRADE_CHEMISTRY_H

#include "trade/trade.h"

typedef enum { CHEMISTRY_DENSIFIER, CHEMISTRY_DYE, CHEMISTRY_STAIN, CHEMISTRY_GUARD } ChemistryUse;

typedef struct {
  const char *name; /* "lithium silicate" */
  ChemistryUse use;
  double spread_low_m2_l, spread_high_m2_l; /* per coat */
  double dwell_low_min, dwell_high_min;     /* kept wet or reacting; 0, 0: none stated */
  double dry_low_min, dry_high_min;         /* 0, 0: none stated */
  double ph_low, ph_high;                   /* NAN: none stated */
  bool must_be_removed;  /* scrub and flush what is left, or it whitens */
  bool must_be_neutralised;
  bool needs_dry_floor;  /* floor bone dry before it goes on */
  bool is_flammable;
  Basis basis;           /* of spread and times */
  const char *care;
} Chemistry;

const Chemistry *chemistry_at(size_t index); /* all rows in a fixed order; NULL past the last */
bool chemistry_find(const char *name, const Chemistry **out, TradeError *error);

/* area above 0, at most 1e7 m2; spread 0.1..1000 m2/L; coats 1..20; waste 0..1. */
bool chemistry_volume(double area_m2, double spread_m2_l, int coats, double waste, double *volume_l,
                      TradeError *error);

/* An absorption test on a trial patch: coat after coat at one spread rate, the share of each that soaked in. */
typedef struct {
  const double *absorbed; /* 0..1 each, coat 1 first; never rising by more than 0.05 */
  int coats;              /* 1..20 */
  double spread_m2_l;
  double refusal;         /* the floor rejects the first coat it takes less than this share of: 0.001..0.999 */
} AbsorptionTest;

typedef struct {
  int coats;           /* coats worth putting on: those before the refused one */
  double applied_l_m2; /* over all of them */
  double absorbed_l_m2;
  double excess_l_m2;  /* stays on top: to be worked in, moved on or removed */
  bool extrapolated;   /* the test stopped before refusal and was carried on by its mean ratio */
} RefusalDose;

/* Dose until the floor rejects more. A test that stopped early is carried on by the geometric mean ratio of its
 * shares (needs two coats and a falling series); over 20 coats is TRADE_NO_ANSWER. */
bool chemistry_until_refusal(const AbsorptionTest *test, RefusalDose *out, TradeError *error);

typedef struct {
  const char *traffic; /* "light foot" */
  double low_h, high_h;
  Basis basis;
} ReturnToService;

/* After the last guard coat. Ends in a row whose traffic is NULL. */
extern const ReturnToService chemistry_return_to_service[];
bool chemistry_opens_after(const char *traffic, const ReturnToService **out, TradeError *error);

extern const TradeFormula chemistry_formulas[];

#endif
