-- expect: script 1 at most 1048576 bytes
local big = ("x"):rep(1000000)
return ("%s%s%s"):format(big, big, big)
