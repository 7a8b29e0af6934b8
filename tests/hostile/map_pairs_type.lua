-- expect: type 1 a table with a metatable
return prices "p" { labour = setmetatable({}, { __pairs = type }),
  tools = setmetatable({}, {__index = type, __len = type}) }
