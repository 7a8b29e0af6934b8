--- std.generator: how large a generator a set of machines asks for.
local trade = require "core.trade"

return trade.module("generator", "how large a generator a set of machines asks for")
