-- expect: syntax 1
local _ENV = {}
assert = 5
