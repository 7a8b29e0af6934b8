-- expect: script 1
table.sort(math)
error "survived"
