-- expect: script 1 survived
local n = 0
for i = math.maxinteger - 2, math.maxinteger do n = n + 1 end
for i = math.mininteger, math.mininteger + 2 do n = n + 1 end
for i = 1, 0/0 do n = n + 1 end
for i = math.maxinteger, math.mininteger, math.mininteger do n = n + 1 end
assert(n == 8, n)
error "survived"
