-- expect: module 1
return require "core.main"
