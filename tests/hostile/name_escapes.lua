-- expect: module 1
return require "\27[2J"
