--- std.power: copper conductors, voltage drop, apparent power.
local trade = require "core.trade"

return trade.module("power", "copper conductors, voltage drop, apparent power")
