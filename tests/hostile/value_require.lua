-- expect: type 1 a table with a metatable
local v = setmetatable({}, { __index = require, __len = require, __pairs = require, __tostring = require,
  __eq = require, __lt = require, __le = require, __concat = require,
  __call = require, __unm = require, __add = require, __mul = require, __div = require, __sub = require, __idiv = require })
return recipe "r" {
  revision = v, finish = v, suits = v, rules = v,
  hone "a" { grit = v, bond = v, wet = v, passes = v, overlap = v, care = v, cautions = v },
  check "x" { measure = v, want = between(v, v), readings = v },
  densify "d" { with = v, spread = at_least(v), dwell = about(v, v, v) } }
