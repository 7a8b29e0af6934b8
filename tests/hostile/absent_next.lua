-- expect: name 1
return next
