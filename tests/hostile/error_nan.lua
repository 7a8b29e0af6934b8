-- expect: script 1
error(0/0)
