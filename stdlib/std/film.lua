--- std.film: thickness of a liquid film, how long it stays wet, how often it is wetted again.
local trade = require "core.trade"

return trade.module("film", "thickness of a liquid film, how long it stays wet, how often it is wetted again")
