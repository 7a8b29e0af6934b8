-- expect: script 1 survived
local list = { 0/0, 1, 0/0, 2, 0/0 }
table.sort(list)
assert(#list == 5)
error "survived"
