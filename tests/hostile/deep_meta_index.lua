-- expect: script 1
local t = {}
setmetatable(t, { __index = function(_, k) return t[k .. "x"] end })
local x = t.a
