-- expect: budget 4
local function again(n) return again(n + 1) end
return again(0)
