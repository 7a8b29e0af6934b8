-- expect: script 1 survived
local t = { [1 / 0] = 1, [-1 / 0] = 2, [math.maxinteger] = 3, [math.mininteger] = 4, [1.0] = 5, [-0.0] = 6 }
local order = {}
for key in pairs(t) do order[#order + 1] = tostring(key) end
assert(table.concat(order, " ") == "1 -inf -9223372036854775808 0 9223372036854775807 inf")
assert(math.maxinteger + 1 == math.mininteger)
error "survived"
