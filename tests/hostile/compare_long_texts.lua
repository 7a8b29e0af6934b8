-- expect: clock 4
-- Few steps and much time: only the clock is left.
local text = ("x"):rep(1000000)
local a, b = "a" .. text .. "a", "a" .. text .. "b"
local n = 0
for i = 1, 1000000000 do if a == b then n = n + 1 end end
