-- expect: script 1 survived
local t = setmetatable({ 1 }, { __len = function() return math.maxinteger end })
table.insert(t, 2)
assert(table.remove(t) == 2 and table.concat(t) == "1" and select("#", table.unpack(t)) == 1)
table.sort(t)
error "survived"
