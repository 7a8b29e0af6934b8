-- A recipe with mistakes on purpose: `gritwork validate` finds them all in one run.

return recipe "with mistakes" {
  revison = "1",
  finish  = { exposure = "cream", gloss = at_least(95) },

  hone    "open"    { grit = 50, bond = "resin", wet = true, passes = 6, overlap = "2 h", care = "rinse the tools" },
  hone    "200"     { grit = 200, bond = "resin", wet = true, passes = 6, overlap = 3, care = "rinse the tools" },
  collect "slurry"  { within = "8 min" },
  densify "densify" { with = "lithium silicat", spread = between("450 sqft/gal", "650 sqft/gal"), dwell = "30 min" },
  polsh   "400"     { grit = 400, bond = "resin" },
}
