-- expect: name 1
return dofile
