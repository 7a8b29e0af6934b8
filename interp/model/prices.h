/* prices.h - a price book as plain data. Rates are Money (1/10,000 of a major unit) per the unit named. */
#ifndef MODEL_PRICES_H
#define MODEL_PRICES_H

#include <stdbool.h>
#include <stdint.h>

#include "base/money.h"
#include "base/source.h"
#include "base/why.h"
#include "model/recipe.h"

/* A rate somebody wrote: exact, with its place and node. */
typedef struct {
  bool given;
  Money money;
  Why why;
  Span at;
} Rate;

/* A percentage as parts per million, exact as written. */
typedef struct {
  bool given;
  int64_t ppm;
  Why why;
  Span at;
} Percent;

/* The days on which a price, or a whole book, holds, both included: since 1970-01-01; 0: not said. */
typedef struct {
  int from_day, until_day;
} PriceDays;

typedef struct {
  const char *name; /* the crew class: "operator" */
  Span at;
  Rate per_hour;
  PriceDays days;
} LabourPrice;

typedef struct {
  const char *name; /* "social security" */
  Span at;
  Percent share;
} BurdenPart;

typedef struct {
  const char *name; /* the tool: "resin 400", "metal 40" */
  Span at;
  Rate per_set;
  Maybe life_m2; /* floor a set lasts for */
  PriceDays days;
} ToolPrice;

typedef enum { PACK_VOLUME_L, PACK_MASS_KG, PACK_COUNT } PackMeasure;

typedef struct {
  const char *label; /* "5 gal": as written */
  PackMeasure measure;
  double size;
  Rate price;
  Span at;
  Maybe gives_l; /* of one sold by mass or piece: the volume that it makes */
  PriceDays days;
} Package;

typedef struct {
  const char *name; /* the chemical or filler: "lithium silicate" */
  Span at;
  Package *packages;
  int package_count;
} MaterialPrice;

/* A machine of one's own: what it costs to have it; see cost/owning.h. */
typedef struct {
  Rate price;
  Percent salvage, capital; /* of the price when its life is over; interest a year */
  Maybe life_h, year_h;     /* hours it works in its life, and in a year */
} OwnedPrice;

typedef struct {
  const char *name; /* the machine class */
  Span at;
  Rate per_hour, per_day;   /* by the running hour, by the day worked on site; either or both */
  Rate per_week, per_month; /* given: a hire by the calendar, of 7 and of 28 days, at the cheapest mix */
  bool owned;
  OwnedPrice own;
  PriceDays days;
} MachinePrice;

typedef enum {
  PER_JOB, PER_AREA, PER_M2, PER_SQFT, PER_M, PER_FT, PER_DAY, PER_PERSON_DAY, PER_READING, PER_LITRE_SLURRY,
  PER_GALLON_SLURRY, PER_KINDS
} ExtraPer;

typedef struct {
  const char *name; /* "mobilisation", "slurry disposal" */
  Span at;
  Rate price;
  ExtraPer per;
  Maybe times; /* how many at each: miles a day, tests an area; once if not said */
  PriceDays days;
} ExtraPrice;

typedef enum { PROFIT_NONE, PROFIT_MARGIN, PROFIT_MARKUP } ProfitRule;

typedef struct {
  const char *name, *currency;
  Span at;
  PriceDays days;
  LabourPrice *labour;
  int labour_count;
  Percent burden;           /* on wages; of the parts together where it has parts */
  BurdenPart *burden_parts;
  int burden_part_count;
  Percent night_premium;    /* on wages of hours in a night shift */
  Percent overtime_premium; /* on wages past these minutes, for each person */
  Maybe overtime_after_min, overtime_week_min; /* a day on which a shift begins; a week from Monday on */
  Maybe call_out_min;       /* least that a person is paid for a shift */
  Percent standing;         /* share of the time between a person's booked work of a shift that is paid */
  ToolPrice *tools;
  int tool_count;
  MaterialPrice *materials;
  int material_count;
  MachinePrice *machines;
  int machine_count;
  ExtraPrice *extras;
  int extra_count;
  Percent material_tax, labour_tax, machine_tax, extra_tax; /* sales tax on tools and materials, on work, ... */
  Percent overhead, contingency, profit;
  Maybe certainty; /* instead of a share: the contingency that makes the cost so certain, 0.5 to 0.99 */
  Rate round_to; /* the price goes up to a whole multiple */
  ProfitRule profit_rule;
} Prices;

#endif
