--- at_most(b): a window without a lower end.
local value = require "core.value"

local EXAMPLE = 'at_most "80 %"'

return {
  kind = "value",
  says = "a window without a lower end",
  example = EXAMPLE,
  make = function(high) return value.new_of(value.window, "at_most", EXAMPLE, { n = 1, high, high = high }) end,
}
