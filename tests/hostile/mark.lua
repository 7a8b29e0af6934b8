-- expect: syntax 1
_mark(1, {})
