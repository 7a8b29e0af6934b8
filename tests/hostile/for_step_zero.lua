-- expect: script 1
for i = 1, 2, 0 do end
