-- expect: budget 4
local kept = {}
for i = 1, 1000000000 do kept[i] = "text " .. i end
