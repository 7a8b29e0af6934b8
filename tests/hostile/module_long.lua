-- expect: module 1
return require(("a"):rep(100000))
