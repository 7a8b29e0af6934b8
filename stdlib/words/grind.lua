--- grind: open, level or expose with a coarse abrasive.
local fields = require "core.fields"

return {
  kind = "step",
  says = "opens, levels or exposes the slab with a coarse abrasive",
  example = 'grind "cut 40" { grit = 40, bond = "metal", passes = 2, overlap = "4 in" }',
  fields = fields.abrasive { grit_required = true, edges = true, edge_rate = "30 ft/h" },
}
