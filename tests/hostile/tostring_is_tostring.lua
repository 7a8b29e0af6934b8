-- expect: script 1
local t = setmetatable({}, { __tostring = tostring })
local x = tostring(t)
error "survived"
