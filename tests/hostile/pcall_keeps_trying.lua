-- expect: budget 4
while true do
  pcall(function() while true do end end)
end
