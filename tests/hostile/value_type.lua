-- expect: type 1 a table with a metatable
local v = setmetatable({}, { __index = type, __len = type, __pairs = type, __tostring = type,
  __eq = type, __lt = type, __le = type, __concat = type,
  __call = type, __unm = type, __add = type, __mul = type, __div = type, __sub = type, __idiv = type })
return recipe "r" {
  revision = v, finish = v, suits = v, rules = v,
  hone "a" { grit = v, bond = v, wet = v, passes = v, overlap = v, care = v, cautions = v },
  check "x" { measure = v, want = between(v, v), readings = v },
  densify "d" { with = v, spread = at_least(v), dwell = about(v, v, v) } }
