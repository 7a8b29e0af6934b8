--- densify: harden the surface with a silicate or silica.
local fields = require "core.fields"

return {
  kind = "step",
  says = "spreads a densifier and lets it react with the slab",
  example = 'densify "densify" { with = "lithium silicate", spread = between("450 sqft/gal", "650 sqft/gal"), '
    .. 'dwell = between("25 min", "45 min"), keep = "wet" }',
  fields = fields.spread {
    names = { "lithium silicate", "sodium silicate", "potassium silicate", "colloidal silica" },
    rate = "3000 sqft/h", basis = "spray and work in 2,000-6,000 sqft/h",
    spread_example = 'between("450 sqft/gal", "650 sqft/gal")',
  },
}
