-- expect: type 1 a table with a metatable
return prices "p" { labour = setmetatable({}, { __pairs = math.max }),
  tools = setmetatable({}, {__index = math.max, __len = math.max}) }
