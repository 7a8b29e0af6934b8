-- expect: script 1
local s = ("a"):rep(300000):gsub("()", "%1%1%1%1%1%1")
