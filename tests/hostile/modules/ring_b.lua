return require "ring_a"
