-- expect: syntax 1
for _tick = 1, 2 do while true do end end
