-- expect: script 1
getmetatable("").__index = {}
