--- collect: take up slurry or dust.
local fields = require "core.fields"

return {
  kind = "step",
  says = "takes up the slurry or dust that the step before left",
  example = 'collect "slurry" { within = "8 min" }',
  fields = fields.surface { rate = "6000 sqft/h", basis = "wet pick-up, near automatic scrubbing at 5,000-15,000 sqft/h" },
}
