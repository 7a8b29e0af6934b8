--- std.carbon_monoxide: exhaust of propane machines indoors.
local trade = require "core.trade"

return trade.module("carbon_monoxide", "exhaust of propane machines indoors")
