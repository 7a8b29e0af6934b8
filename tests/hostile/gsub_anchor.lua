-- expect: budget 4
local s = ("a"):rep(100000)
while true do s:gsub("^a*a*a*a*a*b", "") end
