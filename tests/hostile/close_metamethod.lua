-- expect: script 1 `__close` is not available
setmetatable({}, { __close = function() while true do end end })
