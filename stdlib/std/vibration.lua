--- std.vibration: hand-arm vibration of a day.
local trade = require "core.trade"

return trade.module("vibration", "hand-arm vibration of a day")
