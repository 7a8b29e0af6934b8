--- std.moisture: moisture tests of a slab.
local trade = require "core.trade"

return trade.module("moisture", "moisture tests of a slab")
