/* recipe.h - a recipe as plain data: what is done to a floor, in order. Times in minutes, all else in SI. */
#ifndef MODEL_RECIPE_H
#define MODEL_RECIPE_H

#include <stdbool.h>

#include "base/source.h"
#include "base/why.h"

/* A value that may be left out: given is false and the rest is zero. */
typedef struct {
  bool given;
  Figure figure;
  Span at;
} Maybe;

/* A window that is allowed; either end may be open. */
typedef struct {
  bool has_low, has_high;
  Figure low, high;
  Span at;
} Band;

typedef enum {
  STEP_GRIND, STEP_HONE, STEP_POLISH, STEP_BURNISH, STEP_COLLECT, STEP_CLEAN, STEP_DENSIFY, STEP_DYE, STEP_STAIN,
  STEP_GROUT, STEP_FILL, STEP_PATCH, STEP_GUARD, STEP_WAIT, STEP_CHECK, STEP_NOTE, STEP_WORDS
} StepWord;

/* How a step's work is reckoned. */
typedef enum {
  FAMILY_ABRASIVE, /* a machine in lanes, and edges by hand */
  FAMILY_SURFACE,  /* collect, clean: a machine or tool at a rate over the area */
  FAMILY_MATERIAL, /* something is spread over the area, or filled along joints, then dwells or dries */
  FAMILY_WAIT,     /* the clock only */
  FAMILY_CHECK,    /* readings */
  FAMILY_NOTE      /* words for the crew */
} StepFamily;

typedef struct {
  StepWord word;
  const char *name;
  Span at;      /* the call in the recipe */
  Span name_at; /* the name in it */

  /* abrasive */
  double grit; /* the number; 0 where there is none */
  const char *bond;
  bool wet;
  Figure passes, overlap_m, travel_m_per_min; /* overlap and travel: why 0 when the machine's own hold */
  const char *machine; /* class asked for; NULL: any that does this word */
  bool edges;          /* hand edges belong to this step */
  Figure edge_m_per_min;
  Figure water_m2_per_l; /* floor that a litre serves, all passes together; read where wet */

  /* surface and material work */
  const char *with;      /* water, a chemical, a filler; NULL */
  Maybe rate_m2_per_min; /* spreading, cleaning, collecting */
  Maybe rate_m_per_min;  /* along joints */
  Band spread_m2_per_l;
  Figure coats, waste;   /* waste: fraction of the material on top */
  Maybe joint_width_m, joint_depth_m;
  Maybe share;           /* patch: fraction of the area */

  /* time */
  Maybe within_min; /* starts at most this long after the step before it ends */
  bool follow;      /* collect: people of its own follow the machine while it runs */
  Band dwell_min;   /* works for so long before the next step may start, and must have started */
  Band dry_min;     /* rests for so long, likewise; the high end only where written */
  bool keep_wet;    /* one person stays and re-wets during the dwell */
  Maybe time_min;   /* wait */

  /* people */
  Figure people;
  const char *skill;

  /* check */
  const char *measure;
  Band want; /* in the unit of the measure */
  Maybe readings_per_m2;
  Figure least_readings, minutes_a_reading;
  bool hold; /* work stops here until somebody signs */

  const char *care; /* what must be done to the tools; NULL */
  const char *says; /* words for the crew; NULL */
} Step;

/* Somebody answers for breaking a rule here. Only those that cover a finding get this far. */
typedef struct {
  const char *rule, *reason, *by;
  const char *step, *area; /* NULL: any; area only in a job */
} Waiver;

typedef struct {
  const char *name, *revision; /* revision NULL: not said */
  Span at;
  const char *exposure, *appearance; /* NULL: not promised */
  Band gloss;                        /* promised GU at 60 degrees */
  Step *steps;
  int step_count;
  Waiver *waivers;
  int waiver_count;
} Recipe;

typedef struct {
  const char *name; /* as it is written */
  StepFamily family;
} StepWordRow;

extern const StepWordRow step_words[STEP_WORDS];
bool step_word_find(const char *word, StepWord *out);

#endif
