-- expect: script 1
assert(math.mininteger // -1 == math.mininteger and math.mininteger % -1 == 0)
local x = 1 // 0
