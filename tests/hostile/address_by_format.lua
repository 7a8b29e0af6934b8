-- expect: script 1 no such item
return ("%p"):format({})
