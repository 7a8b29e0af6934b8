-- expect: script 1 a table instead of a message
error(setmetatable({}, { __tostring = function() while true do end end }))
