-- expect: script 1
local t = setmetatable({}, { __tostring = function() return ("x"):rep(1000000) end })
local s = ("%s"):rep(4):format(t, t, t, t)
