-- expect: script 1 survived
local list = {}
for i = 1, 100 do list[i] = 100 - i end
table.sort(list, function(a, b)
  for i = 1, 100 do list[i] = nil end
  return (a or 0) < (b or 0)
end)
error "survived"
