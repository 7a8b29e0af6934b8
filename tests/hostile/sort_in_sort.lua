-- expect: script 1
local list = {}
for i = 1, 100 do list[i] = 100 - i end
local function before(a, b) table.sort(list, before) return a < b end
table.sort(list, before)
