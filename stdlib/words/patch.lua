--- patch: repair spalls and holes.
local fields = require "core.fields"
local types = require "core.types"

return {
  kind = "step",
  says = "repairs spalls and holes; a later tool cuts the repair flush",
  example = 'patch "spalls" { with = "polymer repair", share = "1 %", depth = "1/4 in", dry = "1 h" }',
  fields = fields.join(fields.join({
    { "with", types.choice { "polymer repair", "cement repair" }, says = "the repair material", required = true },
    { "share", types.quantity("fraction", { least = "0 %", most = "100 %" }), says = "part of the floor to repair",
      required = true, example = '"1 %"' },
    { "depth", types.quantity("length", { least = "1 mm", most = "6 in" }), says = "mean depth of a repair",
      required = true },
    { "rate", types.quantity("production rate"), says = "repair surface done in a time", default = "20 sqft/h",
      basis = fields.PRACTICE },
    { "waste", types.quantity("fraction", { least = "0 %", most = "100 %" }), says = "material lost on top",
      default = "10 %", basis = fields.PRACTICE },
  }, fields.chemical_rest()), fields.general("chemicals")),
}
