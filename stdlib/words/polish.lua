--- polish: bring up the sheen with fine abrasives.
local fields = require "core.fields"

return {
  kind = "step",
  says = "brings up the sheen with a fine abrasive",
  example = 'polish "800" { grit = 800, bond = "resin", wet = true, passes = 5, overlap = "3 in" }',
  fields = fields.abrasive { grit_required = true, edges = true, edge_rate = "50 ft/h" },
}
