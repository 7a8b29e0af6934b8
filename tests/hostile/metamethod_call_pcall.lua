-- expect: script 1 survived
local t = {}
setmetatable(t, { __call = pcall })
t()
error "survived"
