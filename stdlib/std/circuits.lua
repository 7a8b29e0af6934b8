--- std.circuits: which machines may run at once on the circuits there are; where a GFCI is asked for.
local trade = require "core.trade"

return trade.module("circuits",
  "which machines may run at once on the circuits there are; where a GFCI is asked for")
