--- dye: colour the open floor.
local fields = require "core.fields"

return {
  kind = "step",
  says = "colours the floor while it is still open",
  example = 'dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "30 min" }',
  fields = fields.spread {
    names = { "acetone dye", "water dye" }, rate = "2000 sqft/h", basis = "pump sprayer 1,000-3,000 sqft/h",
    spread_example = '"400 sqft/gal"',
  },
}
