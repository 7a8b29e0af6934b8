--- std.packages: the cheapest whole packages that cover a need.
local trade = require "core.trade"

return trade.module("packages", "the cheapest whole packages that cover a need")
