-- expect: script 1
local x = select(math.mininteger, 1, 2)
