-- expect: script 1
local function f(s) return (s:gsub(".", f)) end
f("abc")
