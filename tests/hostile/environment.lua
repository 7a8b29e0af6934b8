-- expect: script 1
setmetatable(_ENV, { __index = function() return "poisoned" end })
