-- expect: script 1 non-closable
-- The fourth value of a `for` is closed when the loop ends.
local meta = {}
local held = setmetatable({}, meta)
meta.__close = function() while true do end end
for i in function() end, nil, nil, held do return i end
