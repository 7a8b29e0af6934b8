--- std.joints: filling contraction joints: how much, how long, how old the slab must be.
local trade = require "core.trade"

return trade.module("joints", "filling contraction joints: how much, how long, how old the slab must be")
