-- expect: script 1
local t = setmetatable({}, { __concat = function(a, b) return a .. b end })
local x = t .. t
