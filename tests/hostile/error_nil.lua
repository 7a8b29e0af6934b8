-- expect: script 1 without a message
error(nil)
