-- expect: script 1
local s = ("%99.99f"):rep(9999):format(table.unpack({ 1e308 }))
