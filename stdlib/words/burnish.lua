--- burnish: run a fine pad at high speed, dry.
local fields = require "core.fields"

return {
  kind = "step",
  says = "runs a fine pad dry at high speed to lift the sheen or to set a guard",
  example = 'burnish "finish" { grit = 3000, passes = 1 }',
  fields = fields.abrasive { bond = "fibre", edges = false, edge_rate = "60 ft/h" },
}
