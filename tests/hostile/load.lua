-- expect: name 1
return load("while true do end")
