-- expect: script 1
local h = hone "a" { grit = 100 }
assert(getmetatable(h) == false)
setmetatable(h, {})
