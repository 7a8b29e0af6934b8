--- std.statistics: the distributions that acceptance rests on.
local trade = require "core.trade"

return trade.module("statistics", "the distributions that acceptance rests on")
