-- expect: script 1 survived
local list, n = {}, 0
for i = 1, 500 do list[i] = i end
table.sort(list, function() return true end)
table.sort(list, function() n = n + 7 return n % 3 == 0 end)
assert(#list == 500)
error "survived"
