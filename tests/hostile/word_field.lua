-- expect: script 1
hone.x = 1
