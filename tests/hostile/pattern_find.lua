-- expect: budget 4
return ("a"):rep(50):find(("a?"):rep(50) .. ("a"):rep(50))
