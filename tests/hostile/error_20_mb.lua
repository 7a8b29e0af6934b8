-- expect: budget 4
local text = ("x"):rep(1000000)
for i = 1, 5 do text = text .. text end
error(text)
