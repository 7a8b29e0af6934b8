-- expect: syntax 1
local _tick = type
while true do end
