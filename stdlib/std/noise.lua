--- std.noise: a person's noise dose by each published criterion.
local trade = require "core.trade"

return trade.module("noise", "a person's noise dose by each published criterion")
