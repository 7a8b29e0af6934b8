--- at_most(b): a window without a lower end.
local object = require "core.object"
local value = require "core.value"

return {
  kind = "value",
  says = "a window without a lower end",
  example = 'at_most "80 %"',
  make = function(high) return object.new(value.window, { word = "at_most", high = high }) end,
}
