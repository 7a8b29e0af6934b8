-- expect: script 1
local function down(text) return (text:gsub("x", down)) end
return down "x"
