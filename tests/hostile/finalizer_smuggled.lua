-- expect: script 1 survived
local meta = {}
for i = 1, 1000 do setmetatable({}, meta) end
meta.__gc = function() while true do end end
for i = 1, 10000 do local garbage = { i } end
error "survived"
