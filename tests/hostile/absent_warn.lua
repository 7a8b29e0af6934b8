-- expect: name 1
return warn
