-- expect: script 1
local s = ("a"):rep(1000000):byte(math.mininteger, math.maxinteger)
