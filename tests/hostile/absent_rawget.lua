-- expect: name 1
return rawget
