-- expect: name 1
return debug
