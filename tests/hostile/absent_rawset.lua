-- expect: name 1
return rawset
