-- expect: budget 4
local t = {}
setmetatable(t, { __call = function(self, ...) return self(...) end })
t()
