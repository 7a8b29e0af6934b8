--- std.coverage: minutes of a step, rates, and bands of plausible production.
local trade = require "core.trade"

return trade.module("coverage", "minutes of a step, rates, and bands of plausible production")
