-- expect: budget 4 a text grew past
local text = "x"
while true do text = text .. text end
