-- expect: document 1
local m = {}
local a = setmetatable({}, m)
m.__gc = function() end
local b = setmetatable({}, m)
