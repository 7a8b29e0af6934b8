-- expect: budget 4
local t = setmetatable({}, { __index = function(t, k) return k .. k end })
local s = "ab"
while true do s = s:gsub(".", t) end
