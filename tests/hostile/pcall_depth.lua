-- expect: script 1 survived
local function f() return pcall(f) end
f()
error "survived"
