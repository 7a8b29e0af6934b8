--- check: take readings, and stop there if it is a hold point.
local fields = require "core.fields"
local measures = require "core.measures"
local types = require "core.types"

return {
  kind = "step",
  says = "takes readings; with hold = true work stops until they are signed",
  example = 'check "sheen" { measure = "gloss 60", want = at_least(45), readings = "1 per 500 sqft", hold = true }',
  settle = measures.settle,
  fields = fields.join({
    { "measure", types.choice(measures.names), says = "what is read", required = true },
    { "want", types.window(measures.reading), says = "what the readings must be", example = "at_least(45)" },
    { "readings", types.quantity("count per area", { least = "1 per 1000000 sqft", most = "1 per sqft" }),
      says = "how many readings for the floor", default = "1 per 1000 sqft", basis = "clarity and haze tests: 1 for each 1,000 sqft; guide specification",
      example = '"1 per 500 sqft"' },
    { "least", types.whole(1, 1000), says = "readings at least", default = 3,
      basis = "clarity and haze tests: 3 for the first 1,000 sqft; guide specification" },
    { "each", types.quantity("time"), says = "time for one reading", default = "4 min", basis = fields.PRACTICE },
    { "hold", types.flag, says = "a hold point: work stops until the readings are signed", default = false,
      basis = "no hold point unless the recipe says hold = true" },
  }, fields.general("readings")),
}
