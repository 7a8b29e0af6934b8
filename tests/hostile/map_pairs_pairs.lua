-- expect: type 1 a table with a metatable
return prices "p" { labour = setmetatable({}, { __pairs = pairs }),
  tools = setmetatable({}, {__index = pairs, __len = pairs}) }
