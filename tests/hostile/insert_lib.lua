-- expect: script 1
table.insert(string, "x")
