-- expect: script 1
local t = setmetatable({}, { __metatable = "locked" })
assert(getmetatable(t) == "locked")
setmetatable(t, {})
