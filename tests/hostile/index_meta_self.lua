-- expect: script 1
local m = {}
m.__index = m
setmetatable(m, m)
local y = m.z
