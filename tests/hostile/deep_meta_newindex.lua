-- expect: script 1
local t = {}
setmetatable(t, { __newindex = function(_, k, v) t[k .. 1] = v end })
t.a = 1
