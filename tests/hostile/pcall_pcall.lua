-- expect: script 1 survived
local f = pcall
for i = 1, 1000 do local g = f f = function(...) return pcall(g, ...) end end
f(error)
error "survived"
