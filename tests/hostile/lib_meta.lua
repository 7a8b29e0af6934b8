-- expect: script 1
local m = getmetatable("")
assert(m == false)
local m2 = getmetatable(string)
assert(m2 == false)
setmetatable(string, {})
