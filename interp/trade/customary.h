/* customary.h - exact factors for published rules that are written in US customary units.
 *
 * Source: NIST SP 811 (2008), Appendix B. Only formulas and tables of the trade library use these; documents are
 * converted by base/quantity.h. */
#ifndef TRADE_CUSTOMARY_H
#define TRADE_CUSTOMARY_H

#define INCH_MM 25.4
#define FOOT_M 0.3048
#define MILE_KM 1.609344
#define MIL_UM 25.4
#define SQFT_M2 0.09290304
#define CUFT_L 28.316846592
#define CFM_L_S (CUFT_L / 60)
#define GALLON_L 3.785411784
#define POUND_KG 0.45359237

/* 1 sqft/gal in m2/L. */
#define SQFT_PER_GALLON_M2_L (SQFT_M2 / GALLON_L)

#endif
