-- expect: script 1
string.rep = nil
