--- std.limits: published limits with their editions.
local trade = require "core.trade"

return trade.module("limits", "published limits with their editions")
