--- std.dust: respirable silica: what Table 1 of 29 CFR 1926.1153(c) asks for.
local trade = require "core.trade"

return trade.module("dust", "respirable silica: what Table 1 of 29 CFR 1926.1153(c) asks for")
