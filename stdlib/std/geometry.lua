--- std.geometry: outlines of floors and the lanes a machine drives over them.
local trade = require "core.trade"

return trade.module("geometry", "outlines of floors and the lanes a machine drives over them")
