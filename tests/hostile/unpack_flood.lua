-- expect: script 1 too many items
return select("#", table.unpack({}, 1, 100000000))
