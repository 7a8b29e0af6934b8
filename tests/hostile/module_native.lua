-- expect: module 1
return require "native.place"
