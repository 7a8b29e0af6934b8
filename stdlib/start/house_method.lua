-- Your standard method. Change the grits, passes and times to your own; `gritwork words hone` explains the fields.

local RINSE = "rinse the tools before the slurry sets"

return recipe "house method" {
  revision = "1",
  finish   = { exposure = "cream", appearance = "satin", gloss = at_least(35) },

  check   "survey"      { measure = "mohs hardness", want = between(3, 6), hold = true },
  hone    "100"         { grit = 100, bond = "resin", wet = true, passes = 6, overlap = "3 in", care = RINSE },
  collect "slurry 100"  { within = "8 min" },
  hone    "200"         { grit = 200, bond = "resin", wet = true, passes = 6, overlap = "3 in", care = RINSE },
  collect "slurry 200"  { within = "8 min" },
  clean   "wash"        { with = "water", dry = "1 h" },
  densify "densify"     { with = "lithium silicate", spread = between("450 sqft/gal", "650 sqft/gal"),
                          dwell = between("25 min", "45 min"), keep = "wet", dry = "1 h" },
  polish  "400"         { grit = 400, bond = "resin", wet = true, passes = 5, overlap = "3 in", care = RINSE },
  collect "slurry 400"  { within = "8 min" },
  polish  "800"         { grit = 800, bond = "resin", wet = true, passes = 5, overlap = "3 in", care = RINSE },
  collect "slurry 800"  { within = "8 min" },
  clean   "last wash"   { with = "water", dry = "1 h" },
  burnish "finish"      { grit = 1500, passes = 2 },
  check   "sheen"       { measure = "gloss 60", want = at_least(35), hold = true },
}
