-- expect: script 1 survived
local meta = { __eq = function() return true end, __lt = function() return true end, __le = function() return true end }
local list = {}
for i = 1, 300 do list[i] = setmetatable({ i }, meta) end
table.sort(list)
assert(#list == 300)
error "survived"
