-- expect: syntax 1
_tick(-1000000000000)
while true do end
