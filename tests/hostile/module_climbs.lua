-- expect: module 1
return require "../hostile/while"
