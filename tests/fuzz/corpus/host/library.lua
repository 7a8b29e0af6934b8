local o = require "other"
local s = 0
for k, v in pairs(o) do s = s + #tostring(k) end
local ok, e = pcall(require, "none")
return ("%s %5.1f %q"):format(s, 2, "x"):gsub("%d", { ["1"] = "one" }), error(e)
