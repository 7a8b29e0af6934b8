-- expect: script 1 `__gc` is not available
-- A true now would let a function be put in its place later.
setmetatable({}, { __gc = true })
