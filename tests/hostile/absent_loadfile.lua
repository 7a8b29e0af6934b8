-- expect: name 1
return loadfile
