--- std.exposure: the 8 h average of what one person met over a shift.
local trade = require "core.trade"

return trade.module("exposure", "the 8 h average of what one person met over a shift")
