--- std.slip: least dynamic coefficient of friction by use of the floor.
local trade = require "core.trade"

return trade.module("slip", "least dynamic coefficient of friction by use of the floor")
