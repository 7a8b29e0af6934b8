-- expect: script 1 at most 1048576 bytes
return ("x"):rep(1 << 40)
