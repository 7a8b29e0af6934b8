-- expect: script 1
local function down(a, b) table.sort({ 1, 2 }, down) return true end
return down()
