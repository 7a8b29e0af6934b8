-- expect: name 1
return collectgarbage
