return require "ring_b"
