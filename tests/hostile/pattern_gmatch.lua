-- expect: budget 4
for _ in ("x"):rep(20000):gmatch(".-b") do end
for _ in ("x"):rep(20000):gmatch(".-b") do end
