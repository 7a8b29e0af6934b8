-- expect: module 1
return require(setmetatable({}, { __tostring = function() return "ring_a" end }))
