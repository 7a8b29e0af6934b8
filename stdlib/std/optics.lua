--- std.optics: what light allows a surface to read.
local trade = require "core.trade"

return trade.module("optics", "what light allows a surface to read")
