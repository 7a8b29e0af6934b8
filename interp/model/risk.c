#include "model/risk.h"

const char *const risk_shape_names[RISK_SHAPES] = { "pert", "triangular", "lognormal" };

const RiskSetting risk_default = { .shape = RISK_PERT, .trials = 10000, .seed = 1, .certainty = 0.8 };
