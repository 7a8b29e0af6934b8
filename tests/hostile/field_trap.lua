-- expect: type 1
local function trap() while true do end end
local t = setmetatable({}, { __index = trap, __len = trap, __pairs = trap, __tostring = trap })
return recipe "trap" { hone "open" { grit = t, bond = t, passes = t } }
