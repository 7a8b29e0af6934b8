/* risk.h - what of a job is uncertain besides the estimates in its figures, and how a simulation goes about it. */
#ifndef MODEL_RISK_H
#define MODEL_RISK_H

#include "model/recipe.h"

typedef enum { RISK_PERT, RISK_TRIANGULAR, RISK_LOGNORMAL, RISK_SHAPES } RiskShape;

/* Factors are 1 where all goes as planned. Left out: nothing of the kind is uncertain. */
typedef struct {
  RiskShape shape;
  Maybe production; /* rate of the crew; minutes of attended work are divided by it; one for the whole job */
  Maybe hardness;   /* of the slab: times the minutes of grinding to burnishing; one for the whole job */
  Maybe drying;     /* times the minutes that things dry; one for the whole job */
  Maybe areas;      /* times the minutes of attended work; one for each area, independent */
  Maybe rework;     /* chance that an abrasive step's field is done a second time; each step and area for itself */
  Maybe lost_days;  /* chance that a day of work is lost as a whole */
  int trials, seed;
  Why trials_why, seed_why; /* 0: nobody said */
  double certainty;         /* of the contingency that is proposed, above 0 and below 1 */
  bool certainty_given;
} RiskSetting;

extern const char *const risk_shape_names[RISK_SHAPES];
extern const RiskSetting risk_default;

#endif
