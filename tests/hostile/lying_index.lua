-- expect: script 1 survived
local t = setmetatable({}, { __index = function(_, i) return i end, __len = function() return 1 << 40 end })
assert(table.concat(t) == "")
for key in pairs(t) do error "a key that is not there" end
error "survived"
