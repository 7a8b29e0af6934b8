-- expect: script 1 `__call` must be a function
local t = {}
setmetatable(t, { __call = t })
t()
