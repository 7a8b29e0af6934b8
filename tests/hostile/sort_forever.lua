-- expect: budget 4
local list = {}
for i = 1, 20000 do list[i] = i end
while true do table.sort(list, function(a, b) return a > b end) end
