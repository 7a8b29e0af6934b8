-- expect: script 1
local m = {}
m.__eq = function(a, b) return a == b end
local x = setmetatable({}, m) == setmetatable({}, m)
