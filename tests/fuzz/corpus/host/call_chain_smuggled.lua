-- expect: script 1 attempt to call a table value
local meta = {}
local t = setmetatable({}, meta)
meta.__call = t
t()
