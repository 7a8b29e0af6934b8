--- Fields of a job's `risk`: what is uncertain besides the estimates written with about(...).
local types = require "core.types"

local risk = {}

-- A value that is what it is: about(...) is refused.
local function sure(kind)
  kind.uncertain = false
  return kind
end

local factor = types.quantity("fraction", { least = "10 %", most = "1000 %" })
local chance = sure(types.quantity("fraction", { least = "0 %", most = "90 %" }))
local SPREAD = 'about("90 %", "100 %", "120 %")'

risk.fields = {
  { "production", factor, says = "rate of the crew on this job against the plan; all attended work together",
    example = SPREAD },
  { "hardness", factor,
    says = "minutes of grinding to burnishing on this slab against the plan; all areas together",
    example = SPREAD },
  { "drying", factor, says = "drying times against the plan; all areas together", example = SPREAD },
  { "areas", factor, says = "minutes of attended work against the plan; each area for itself", example = SPREAD },
  { "rework", chance, says = "chance that a field is ground, honed or polished a second time; each for itself",
    example = '"3 %"' },
  { "lost_days", chance, says = "chance that a day of work is lost as a whole", example = '"2 %"' },
  { "shape", types.choice { "pert", "triangular", "lognormal" },
    says = 'distribution of every estimate; else "pert"' },
  { "trials", sure(types.whole(100, 1000000)), says = "how many; else 10000" },
  { "seed", sure(types.whole(0, 2147483647)), says = "of the random numbers; else 1" },
  { "certainty", sure(types.quantity("fraction", { least = "1 %", most = "99 %" })),
    says = "of the contingency that is proposed; else the price book's, else 80 %" },
}

return risk
