-- expect: budget 4
local function g(...) return g(1, ...) end
g()
