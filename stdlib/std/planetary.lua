--- std.planetary: how evenly a planetary head works the floor.
local trade = require "core.trade"

return trade.module("planetary", "how evenly a planetary head works the floor")
