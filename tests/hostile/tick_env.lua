-- expect: syntax 1
local _ENV = { _tick = type }
while true do end
