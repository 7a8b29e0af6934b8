-- expect: budget 4
return ("("):rep(50000):find("%b()")
