-- expect: module 1
return require "ring_a\0.txt"
