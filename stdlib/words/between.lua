--- between(a, b): a window that is allowed.
local value = require "core.value"

local EXAMPLE = 'between("25 min", "45 min")'

return {
  kind = "value",
  says = "a window that is allowed, both ends included",
  example = EXAMPLE,
  make = function(low, high) return value.new_of(value.window, "between", EXAMPLE, { n = 2, low, high, low = low, high = high }) end,
}
