-- expect: script 1
error("x", math.mininteger)
