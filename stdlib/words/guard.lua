--- guard: protect the finished floor against stains.
local fields = require "core.fields"

return {
  kind = "step",
  says = "lays a thin stain guard on the finished floor",
  example = 'guard "guard" { with = "stain guard", spread = "1500 sqft/gal", coats = 2, dry = "1 h" }',
  fields = fields.spread {
    names = { "stain guard" }, rate = "2500 sqft/h", basis = "by microfibre 1,500-4,000 sqft/h",
    spread_example = '"1500 sqft/gal"',
  },
}
