-- expect: script 1
error "\0011:1: elsewhere"
