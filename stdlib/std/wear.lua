--- std.wear: how much floor a set of tools lasts.
local trade = require "core.trade"

return trade.module("wear", "how much floor a set of tools lasts")
