-- expect: global 1
kept = {}
