-- expect: script 1
local x = { table.unpack({}, math.mininteger, math.maxinteger) }
