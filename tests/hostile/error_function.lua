-- expect: script 1
error(error)
