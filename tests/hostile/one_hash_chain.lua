-- expect: clock 4
-- Integer keys that all fall on one chain of the table.
local t = {}
for i = 1, 1000000000 do t[i * 32767 * 65537] = i end
