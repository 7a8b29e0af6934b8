-- expect: type 1
local t = {}
t[1] = t
return recipe "cycle" { hone "open" { grit = 100, bond = t, passes = t } }
