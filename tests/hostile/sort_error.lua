-- expect: script 1 survived
local list = { 3, 2, 1 }
local fine, why = pcall(table.sort, list, function() error({}) end)
assert(not fine)
error "survived"
