--- clean: wash or vacuum the floor between steps.
local fields = require "core.fields"

return {
  kind = "step",
  says = "washes or vacuums the whole floor",
  example = 'clean "wash" { with = "water" }',
  fields = fields.surface { names = { "water", "neutral cleaner", "vacuum", "neutraliser" }, rate = "8000 sqft/h",
    basis = "automatic scrubbing 5,000-15,000 sqft/h" },
}
