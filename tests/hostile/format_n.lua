-- expect: script 1
local s = ("%n"):format(5)
