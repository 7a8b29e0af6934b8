--- std.chemistry: liquids put on the floor: kinds, how much a floor takes, when it may be used again.
local trade = require "core.trade"

return trade.module("chemistry",
  "liquids put on the floor: kinds, how much a floor takes, when it may be used again")
