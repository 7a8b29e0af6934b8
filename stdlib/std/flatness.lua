--- std.flatness: floor flatness FF and levelness FL.
local trade = require "core.trade"

return trade.module("flatness", "floor flatness FF and levelness FL")
