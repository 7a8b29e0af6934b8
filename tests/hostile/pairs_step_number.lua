-- expect: script 1 table expected
local f = pairs({ 1, 2 })
f(5)
f(6)
