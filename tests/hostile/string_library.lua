-- expect: script 1 belongs to the language
string.rep = function() return "poisoned" end
