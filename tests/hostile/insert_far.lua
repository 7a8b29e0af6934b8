-- expect: script 1
local t = {}
table.insert(t, math.maxinteger, 1)
