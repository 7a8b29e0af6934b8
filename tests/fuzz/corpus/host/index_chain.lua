-- expect: script 1
local a, b = {}, {}
setmetatable(a, { __index = b })
setmetatable(b, { __index = a })
return a.missing
