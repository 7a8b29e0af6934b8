-- expect: script 1
local t = setmetatable({}, { __pairs = pairs })
for k in pairs(t) do end
error "survived"
