--- std.room: a gas or vapour in a room with fresh air, taken as well mixed.
local trade = require "core.trade"

return trade.module("room", "a gas or vapour in a room with fresh air, taken as well mixed")
