--- std.water: water of wet steps and the trips its tanks cost.
local trade = require "core.trade"

return trade.module("water", "water of wet steps and the trips its tanks cost")
