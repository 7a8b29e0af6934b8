-- expect: script 1 survived
local function f() end
assert(tostring({}) == "table" and tostring(f) == "function" and tostring(tostring) == "function")
assert(not tostring(string):find("%x%x%x%x"))
error "survived"
