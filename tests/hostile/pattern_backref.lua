-- expect: budget 4
local s = ("a"):rep(20000)
local x = s:find("(a*)(a*)(a*)%1%2%3b")
