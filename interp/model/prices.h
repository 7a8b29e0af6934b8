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

typedef struct {
  const char *name; /* the crew class: "operator" */
  Span at;
  Rate per_hour;
} LabourPrice;

typedef struct {
  const char *name; /* the tool: "resin 400", "metal 40" */
  Span at;
  Rate per_set;
  Maybe life_m2; /* floor a set lasts for */
} ToolPrice;

typedef enum { PACK_VOLUME_L, PACK_MASS_KG, PACK_COUNT } PackMeasure;

typedef struct {
  const char *label; /* "5 gal": as written */
  PackMeasure measure;
  double size;
  Rate price;
  Span at;
} Package;

typedef struct {
  const char *name; /* the chemical or filler: "lithium silicate" */
  Span at;
  Package *packages;
  int package_count;
} MaterialPrice;

typedef struct {
  const char *name; /* the machine class */
  Span at;
  Rate per_hour, per_day; /* by the running hour, by the day on site; either or both */
} MachinePrice;

typedef enum {
  PER_JOB, PER_AREA, PER_M2, PER_SQFT, PER_M, PER_FT, PER_DAY, PER_LITRE_SLURRY, PER_GALLON_SLURRY, PER_KINDS
} ExtraPer;

typedef struct {
  const char *name; /* "mobilisation", "slurry disposal" */
  Span at;
  Rate price;
  ExtraPer per;
} ExtraPrice;

typedef enum { PROFIT_NONE, PROFIT_MARGIN, PROFIT_MARKUP } ProfitRule;

typedef struct {
  const char *name, *currency;
  Span at;
  int from_day, until_day; /* days since 1970-01-01; 0: not said */
  LabourPrice *labour;
  int labour_count;
  Percent burden;           /* on wages */
  Percent night_premium;    /* on wages of hours in a night shift */
  Percent overtime_premium; /* on wages past overtime_after_min a day and person */
  Maybe overtime_after_min;
  Percent standing;         /* share of the time between a person's booked work of a shift that is paid */
  ToolPrice *tools;
  int tool_count;
  MaterialPrice *materials;
  int material_count;
  MachinePrice *machines;
  int machine_count;
  ExtraPrice *extras;
  int extra_count;
  Percent overhead, contingency, profit, material_tax;
  ProfitRule profit_rule;
} Prices;

#endif
