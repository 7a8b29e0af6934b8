/* bond.h - what holds the diamond: families of tools, and the bond that suits a slab.
 *
 * Families and their usual grits are common practice. That a hard slab wants a soft bond and a soft slab a hard one
 * is confirmed (four suppliers' guides agree); the Mohs bands are common practice, no source. */
#ifndef TRADE_BOND_H
#define TRADE_BOND_H

#include "trade/trade.h"

/* In the order of a job: a later family never goes before an earlier one without stepping back. */
typedef enum {
  BOND_SCRAPER, /* polycrystalline scraper segment: no grit */
  BOND_METAL,
  BOND_TRANSITIONAL, /* hybrid, ceramic, copper and resin */
  BOND_RESIN,
  BOND_FIBRE, /* impregnated fibre pad */
  BOND_FAMILIES
} BondFamily;

typedef struct {
  BondFamily family;
  const char *name;
  const char *purpose;
  const double *grits; /* printed pad numbers, coarse first */
  size_t grit_count;
  Basis basis;
} BondInfo;

const BondInfo *bond_info(BondFamily family);
/* "metal", "transitional", ...; refuses others as "bond". */
bool bond_find(const char *name, BondFamily *out, TradeError *error);

typedef struct {
  double above_mohs, to_mohs; /* the upper end belongs to the band: "over 7" begins above 7 */
  const char *slab;           /* "very hard" */
  const char *bond;           /* "soft to extra soft" */
  Basis basis;
} BondChoice;

/* The bond for a paste of this scratch hardness. 1 <= mohs <= 10. The answer lives as long as the program. */
bool bond_for_mohs(double mohs, const BondChoice **out, TradeError *error);

extern const TradeFormula bond_formulas[];

#endif
