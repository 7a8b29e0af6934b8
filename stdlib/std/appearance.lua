--- std.appearance: levels of appearance, image clarity, haze, places to read.
local trade = require "core.trade"

return trade.module("appearance", "levels of appearance, image clarity, haze, places to read")
