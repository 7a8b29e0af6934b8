--- at_least(a): a window without an upper end.
local value = require "core.value"

local EXAMPLE = 'at_least "28 d"'

return {
  kind = "value",
  says = "a window without an upper end",
  example = EXAMPLE,
  make = function(low) return value.new_of(value.window, "at_least", EXAMPLE, { n = 1, low, low = low }) end,
}
