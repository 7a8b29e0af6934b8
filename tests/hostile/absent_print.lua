-- expect: name 1
return print
