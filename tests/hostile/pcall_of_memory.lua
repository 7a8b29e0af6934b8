-- expect: budget 4
local kept = {}
while true do
  pcall(function() for i = 1, 1000000 do kept[#kept + 1] = { i } end end)
end
