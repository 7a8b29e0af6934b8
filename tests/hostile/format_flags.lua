-- expect: script 1 survived
local s = ("%" .. ("-+ 0"):rep(100000) .. "d"):format(1)
error "survived"
