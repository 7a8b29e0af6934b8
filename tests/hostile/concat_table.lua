-- expect: script 1 at most 1048576 bytes
local parts, part = {}, ("x"):rep(100000)
for i = 1, 100 do parts[i] = part end
return table.concat(parts)
