--- std.aggregate: how much aggregate a floor shows: the classes of the charts.
local trade = require "core.trade"

return trade.module("aggregate", "how much aggregate a floor shows: the classes of the charts")
