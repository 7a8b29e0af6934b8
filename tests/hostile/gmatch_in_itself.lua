-- expect: script 1 survived
local f = ("abc"):gmatch("()")
for i in f do for j in f do f() end end
error "survived"
