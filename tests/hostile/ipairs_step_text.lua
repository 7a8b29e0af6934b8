-- expect: script 1
local f = ipairs({ 1 })
f("x", 1)
f(nil, 2)
