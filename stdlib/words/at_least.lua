--- at_least(a): a window without an upper end.
local object = require "core.object"
local value = require "core.value"

return {
  kind = "value",
  says = "a window without an upper end",
  example = 'at_least "28 d"',
  make = function(low) return object.new(value.window, { word = "at_least", low = low }) end,
}
