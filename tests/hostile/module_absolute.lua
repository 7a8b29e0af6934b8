-- expect: module 1
return require "/etc/passwd"
