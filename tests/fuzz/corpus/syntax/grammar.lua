local a <const>, b = 1, 0x1p-2
goto done
for i = 1, 10, 2 do if i > 3 then break elseif i == 2 then b = b .. i else a.b.c = { i; [i] = 2 } end end
for k, v in pairs { 1, x = "a\z
  b\u{2026}\x41\065" } do print(k, v) end
function a.b:c(x, ...) return self, select("#", ...), ... end
local function f() return function() return a, f end end
while not a do repeat local z = -a ^ 2 // 3 & ~4 | 5 << 1 until z ~= 1 end
do ::inner:: end
a.b, c[1], d = f(1)(2) "x" { [[long]] }:m(), #a, (b)
::done::
