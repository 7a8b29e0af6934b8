-- expect: budget 4
return string.match(("a"):rep(3000), ".-.-.-.-.-b")
