-- expect: script 1
local t = {}
setmetatable(t, { __index = t })
local x = t.y
