-- expect: document 1
local t = {}
t.t = t
return t
