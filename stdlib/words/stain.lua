--- stain: colour by a reaction with the slab.
local fields = require "core.fields"

return {
  kind = "step",
  says = "colours the floor by a reaction with it; an acid stain is neutralised afterwards",
  example = 'stain "rust" { with = "acid stain", spread = "250 sqft/gal", dwell = between("4 h", "24 h") }',
  fields = fields.spread {
    names = { "acid stain", "water stain" }, rate = "1500 sqft/h", basis = "as a dye by pump sprayer, 1,000-3,000 sqft/h",
    spread_example = '"250 sqft/gal"',
  },
}
