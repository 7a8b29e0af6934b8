-- expect: budget 4
return ("x"):rep(5000):gsub("(.-)(.-)%1b", "")
