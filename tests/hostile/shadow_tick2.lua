-- expect: syntax 1
local function f(_tick) while true do end end f(type)
