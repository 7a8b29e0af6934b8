--- std.bond: families of tools, and the bond that suits a slab.
local trade = require "core.trade"

return trade.module("bond", "families of tools, and the bond that suits a slab")
