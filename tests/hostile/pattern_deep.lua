-- expect: script 1
local x = ("a"):rep(1000000):find(("a-"):rep(1000) .. "b")
