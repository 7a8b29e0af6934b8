--- std.removal: how deep a pass cuts, and the passes that clear the last scratch.
local trade = require "core.trade"

return trade.module("removal", "how deep a pass cuts, and the passes that clear the last scratch")
