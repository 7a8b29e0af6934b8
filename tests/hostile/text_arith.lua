-- expect: script 1
local s = ("9"):rep(1000000)
while true do local x = s + 1 end
