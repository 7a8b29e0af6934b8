-- expect: script 1 a table instead of a message
error(setmetatable({}, { __tostring = function() error "again" end, __index = function() error "again" end }))
