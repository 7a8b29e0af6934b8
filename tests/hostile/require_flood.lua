-- expect: module 4
for i = 1, 1000000 do require("none" .. i) end
