-- expect: script 1
local t = {}
t[0 / 0] = 1
