-- expect: budget 4
local chain = function() end
while true do
  local inner = chain
  chain = function() return inner end
end
