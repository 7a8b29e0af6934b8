-- expect: script 1
local x = ("a"):rep(40):find(("(a)"):rep(33))
