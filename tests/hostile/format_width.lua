-- expect: script 1 no such item
return ("%999999999d"):format(1)
