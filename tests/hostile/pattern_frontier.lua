-- expect: budget 4
local x = ("ab"):rep(500000)
while true do x:find("%f[%z]%f[^%z]") end
