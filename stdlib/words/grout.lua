--- grout: fill pinholes over the whole floor.
local fields = require "core.fields"

return {
  kind = "step",
  says = "spreads a grout coat that fills pinholes; a later tool cuts it back",
  example = 'grout "pinholes" { with = "cement grout", spread = "150 sqft/gal", dry = "1 h" }',
  fields = fields.spread {
    names = { "cement grout", "polymer grout" }, rate = "250 sqft/h", basis = "grout coat 150-600 sqft/h by a crew",
    spread_example = '"150 sqft/gal"',
  },
}
