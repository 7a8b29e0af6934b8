--- std.slurry: slurry and dust: volume, mass, drums, bags, and its class by pH.
local trade = require "core.trade"

return trade.module("slurry", "slurry and dust: volume, mass, drums, bags, and its class by pH")
