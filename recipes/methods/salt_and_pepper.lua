-- Fine aggregate shown: opened with metal tools, dry, under dust collection; then the resin chain, wet.
-- Grits, passes, overlaps and times are this project's own choices within the usual bands of the trade.

local RINSE = "rinse the tools before the slurry sets"

return recipe "salt and pepper, metal opened" {
  revision = "1",
  finish   = { exposure = "fine aggregate", appearance = "polished", gloss = at_least(42) },
  suits    = { hardness = between(3, 7), age = at_least "28 d", humidity = at_most "85 %" },

  check   "survey"        { measure = "mohs hardness", want = between(3, 7), readings = "1 per 500 sqft", hold = true },
  grind   "cut 40"        { grit = 40, bond = "metal", passes = param("cut passes", 3, between(2, 8)), overlap = "4 in",
                            travel = "12 ft/min" },
  grind   "cut 80"        { grit = 80, bond = "metal", passes = 2, overlap = "4 in", travel = "14 ft/min" },
  check   "exposure"      { measure = "colour", readings = "1 per 1000 sqft", hold = true,
                            says = "show the cut to the owner's agent beside the mock-up" },
  fill    "joints"        { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
  hone    "bridge 100"    { grit = 100, bond = "transitional", passes = 3, overlap = "3 in" },
  hone    "200"           { grit = 200, bond = "resin", wet = true, passes = 6, overlap = "3 in", care = RINSE },
  collect "slurry 200"    { within = "8 min" },
  clean   "wash"          { with = "water", dry = "2 h" },
  densify "densify"       { with = "lithium silicate", spread = between("400 sqft/gal", "600 sqft/gal"),
                            dwell = between("25 min", "45 min"), keep = "wet", dry = "1 h",
                            care = "keep the applicator wet; rinse it before the densifier dries on it" },
  polish  "400"           { grit = 400, bond = "resin", wet = true, passes = 5, overlap = "3 in", care = RINSE },
  collect "slurry 400"    { within = "8 min" },
  polish  "800"           { grit = 800, bond = "resin", wet = true, passes = 5, overlap = "3 in", care = RINSE },
  collect "slurry 800"    { within = "8 min" },
  polish  "1500"          { grit = 1500, bond = "resin", wet = true, passes = 5, overlap = "3 in", care = RINSE },
  collect "slurry 1500"   { within = "8 min" },
  clean   "last wash"     { with = "water", dry = "1 h" },
  burnish "finish"        { grit = 3000, passes = 2, says = "dry, with the finest pad; keep moving" },
  check   "sheen"         { measure = "gloss 60", want = at_least(42), readings = "1 per 500 sqft", hold = true },
}
