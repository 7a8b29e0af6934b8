-- expect: type 1 a table with a metatable
local v = setmetatable({}, { __index = pairs, __len = pairs, __pairs = pairs, __tostring = pairs,
  __eq = pairs, __lt = pairs, __le = pairs, __concat = pairs,
  __call = pairs, __unm = pairs, __add = pairs, __mul = pairs, __div = pairs, __sub = pairs, __idiv = pairs })
return recipe "r" {
  revision = v, finish = v, suits = v, rules = v,
  hone "a" { grit = v, bond = v, wet = v, passes = v, overlap = v, care = v, cautions = v },
  check "x" { measure = v, want = between(v, v), readings = v },
  densify "d" { with = v, spread = at_least(v), dwell = about(v, v, v) } }
