-- expect: syntax 1 `<close>` is not allowed
local held <close> = setmetatable({}, { __close = function() while true do end end })
error "leave"
