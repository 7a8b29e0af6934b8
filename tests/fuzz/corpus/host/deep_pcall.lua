-- expect: script 1 survived
local function down() return pcall(down) end
down()
error "survived"
