--- between(a, b): a window that is allowed.
local object = require "core.object"
local value = require "core.value"

return {
  kind = "value",
  says = "a window that is allowed, both ends included",
  example = 'between("25 min", "45 min")',
  make = function(low, high) return object.new(value.window, { word = "between", low = low, high = high }) end,
}
