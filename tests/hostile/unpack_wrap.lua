-- expect: script 1 survived
local x = { table.unpack({}, math.maxinteger - 1, math.maxinteger) }
error "survived"
