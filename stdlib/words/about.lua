--- about(low, likely, high): an uncertain estimate.
local object = require "core.object"
local value = require "core.value"

return {
  kind = "value",
  says = "an uncertain estimate: plans use the likely value",
  example = 'about("12 ft/min", "15 ft/min", "18 ft/min")',
  make = function(low, likely, high)
    return object.new(value.estimate, { word = "about", low = low, likely = likely, high = high })
  end,
}
