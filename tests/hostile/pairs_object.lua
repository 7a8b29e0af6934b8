-- expect: script 1 survived
local h = hone "a" { grit = 100 }
for k, v in pairs(h) do error("saw " .. tostring(k)) end
assert(#h == 0)
error "survived"
