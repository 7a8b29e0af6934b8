--- std.solvent: vapour of dyes and cleaners: how much, and the air it takes.
local trade = require "core.trade"

return trade.module("solvent", "vapour of dyes and cleaners: how much, and the air it takes")
