-- expect: name 1
return io
