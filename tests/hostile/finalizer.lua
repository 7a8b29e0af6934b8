-- expect: script 1 `__gc` is not available
setmetatable({}, { __gc = function() while true do end end })
