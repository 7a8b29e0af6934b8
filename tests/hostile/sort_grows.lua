-- expect: script 1 survived
local list = { 3, 2, 1 }
table.sort(list, function(a, b) list[#list + 1] = 0 return a < b end)
error "survived"
