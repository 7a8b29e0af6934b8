-- expect: name 1
return package
