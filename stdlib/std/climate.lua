--- std.climate: dew point, the margin of a surface over it, evaporation from a wet floor.
local trade = require "core.trade"

return trade.module("climate", "dew point, the margin of a surface over it, evaporation from a wet floor")
