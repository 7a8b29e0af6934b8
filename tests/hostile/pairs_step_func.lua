-- expect: script 1 table expected
local f = pairs({ 1, 2, x = 3 })
f(type)
