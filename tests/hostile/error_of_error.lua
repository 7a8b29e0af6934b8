-- expect: script 1
pcall(error)
error(setmetatable({}, { __tostring = function(t) error(t) end }))
