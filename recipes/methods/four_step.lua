-- A short wet chain: 400, 800, 1500 and 3000 with ten slow passes each and two inches of overlap, densified after the
-- first step, the finest pad run once more dry on a burnisher. Common practice, no source; tests/outside reads it too.

local RINSE = "rinse the pads at once, before the slurry sets"

return recipe "four steps to a high sheen" {
  revision = "1",
  finish   = { exposure = "cream", appearance = "highly polished", gloss = at_least(55) },
  suits    = { hardness = between(3, 6) },

  check   "before"       { measure = "gloss 60", want = at_most(10), readings = "1 per 500 sqft" },
  hone    "400"          { grit = 400, bond = "resin", wet = true, passes = 10, overlap = "2 in", travel = "15 ft/min",
                           care = RINSE },
  collect "slurry 400"   { within = "5 min" },
  clean   "wash"         { with = "water", dry = "1 h" },
  densify "densify"      { with = "lithium silicate", spread = between("450 sqft/gal", "650 sqft/gal"),
                           dwell = between("25 min", "45 min"), keep = "wet", dry = "1 h",
                           care = "keep the applicator from drying" },
  polish  "800"          { grit = 800, bond = "resin", wet = true, passes = 10, overlap = "2 in", travel = "15 ft/min",
                           care = RINSE },
  collect "slurry 800"   { within = "5 min" },
  polish  "1500"         { grit = 1500, bond = "resin", wet = true, passes = 10, overlap = "2 in", travel = "15 ft/min",
                           care = RINSE },
  collect "slurry 1500"  { within = "5 min" },
  polish  "3000"         { grit = 3000, bond = "resin", wet = true, passes = 10, overlap = "2 in", travel = "15 ft/min",
                           care = RINSE },
  collect "slurry 3000"  { within = "5 min" },
  clean   "last wash"    { with = "water", dry = "1 h" },
  burnish "dry"          { grit = 3000, passes = 1, says = "the finest pad once more, dry" },
  check   "sheen"        { measure = "gloss 60", want = at_least(55), readings = "1 per 500 sqft", hold = true },
}
