--- collect: take up slurry or dust.
local fields = require "core.fields"
local types = require "core.types"

return {
  kind = "step",
  says = "takes up the slurry or dust that the step before left",
  example = 'collect "slurry" { within = "8 min" }',
  fields = fields.join(fields.surface {
    rate = "6000 sqft/h", basis = "wet pick-up, near automatic scrubbing at 5,000-15,000 sqft/h",
  }, {
    { "follow", types.flag,
      says = "people of its own follow the machine with the vacuum while it runs; else the same "
      .. "people stop and pick up, bay by bay", default = false, basis = "the same people unless said" },
  }),
}
