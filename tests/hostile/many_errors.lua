-- expect: missing 1
local steps = {}
for i = 1, 2000 do steps[i] = hone("step " .. i) { grit = "?" } end
return recipe "many" (steps)
