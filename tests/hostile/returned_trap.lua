-- expect: document 1
local function trap() while true do end end
return setmetatable({}, { __index = trap, __len = trap, __pairs = trap, __tostring = trap })
