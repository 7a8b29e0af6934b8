-- expect: script 1 table expected
local f = pairs({ 1 })
f("x")
