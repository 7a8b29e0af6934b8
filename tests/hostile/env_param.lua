-- expect: syntax 1
local function f(_ENV) while true do end end f({})
