-- expect: script 1
return math.random()
