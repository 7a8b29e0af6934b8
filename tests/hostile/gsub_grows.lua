-- expect: script 1 at most 1048576 bytes
return (("x"):rep(100000):gsub("x", ("y"):rep(1000)))
