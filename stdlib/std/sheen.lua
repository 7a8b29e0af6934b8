--- std.sheen: the gloss to expect after a step.
local trade = require "core.trade"

return trade.module("sheen", "the gloss to expect after a step")
