-- expect: syntax 1
local _mark = function(i, t) return t end
return recipe "r" { hone "a" { grit = "x" } }
