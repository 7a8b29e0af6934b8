-- expect: script 1 survived
assert((""):rep(math.maxinteger) == "")
assert((""):rep(math.maxinteger, "") == "")
error "survived"
