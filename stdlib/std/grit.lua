--- std.grit: grain sizes of printed grits, and the step from one abrasive to the next.
local trade = require "core.trade"

return trade.module("grit", "grain sizes of printed grits, and the step from one abrasive to the next")
