-- expect: module 1
return require "folder"
