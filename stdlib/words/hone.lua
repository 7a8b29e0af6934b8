--- hone: take out the scratches of the step before.
local fields = require "core.fields"

return {
  kind = "step",
  says = "takes out the scratches of the step before with a finer abrasive",
  example = 'hone "200" { grit = 200, bond = "resin", wet = true, passes = 6, overlap = "3 in" }',
  fields = fields.abrasive { grit_required = true, edges = true, edge_rate = "45 ft/h" },
}
