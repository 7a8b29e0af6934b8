--- std.acceptance: whether readings prove a promise, and how many it takes.
local trade = require "core.trade"

return trade.module("acceptance", "whether readings prove a promise, and how many it takes")
