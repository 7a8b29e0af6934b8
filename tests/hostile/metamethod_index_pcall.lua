-- expect: script 1 survived
local t = setmetatable({}, { __index = pcall })
local x = t.a
error "survived"
