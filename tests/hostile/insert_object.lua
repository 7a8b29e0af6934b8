-- expect: script 1
local h = hone "a" { grit = 100 }
table.insert(h, 1)
