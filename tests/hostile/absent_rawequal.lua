-- expect: name 1
return rawequal
