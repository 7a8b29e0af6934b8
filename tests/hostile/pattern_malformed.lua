-- expect: script 1
local x = ("a"):find("[a")
