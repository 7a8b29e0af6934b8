-- expect: module 1
return require "ring_a\nring_b"
