-- expect: type 1 a table with a metatable
return job "j" { machine "m" { does = setmetatable({}, { __index = require }) } }
