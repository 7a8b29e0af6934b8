-- expect: budget 4
local kept = {}
for i = 1, 1000000 do kept[i] = i .. ("x"):rep(1000000) end
