-- expect: script 1
local text = "x"
text.rep = function() return "poisoned" end
