--- about(low, likely, high): an uncertain estimate.
local value = require "core.value"

local EXAMPLE = 'about("12 ft/min", "15 ft/min", "18 ft/min")'

return {
  kind = "value",
  says = "an uncertain estimate: plans use the likely value",
  example = EXAMPLE,
  make = function(low, likely, high) return value.new_of(value.estimate, "about", EXAMPLE, { n = 3, low, likely, high, low = low, likely = likely, high = high }) end,
}
