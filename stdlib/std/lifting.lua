--- std.lifting: the recommended weight limit for lifting by hand.
local trade = require "core.trade"

return trade.module("lifting", "the recommended weight limit for lifting by hand")
