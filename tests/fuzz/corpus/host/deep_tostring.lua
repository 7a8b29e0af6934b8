-- expect: script 1
local meta = {}
meta.__tostring = function(t) return tostring(setmetatable({}, meta)) end
return tostring(setmetatable({}, meta))
