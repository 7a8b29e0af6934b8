-- expect: form 1
return recipe "r" (setmetatable({ hone "a" { grit = 200 } }, { __index = type, __len = type, __pairs = type, __tostring = type,
  __eq = type, __lt = type, __concat = type, __call = type, __unm = type }))
