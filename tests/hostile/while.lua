-- expect: budget 4
while true do end
