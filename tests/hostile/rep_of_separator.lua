-- expect: script 1 at most 1048576 bytes
return (""):rep(math.maxinteger, "x")
