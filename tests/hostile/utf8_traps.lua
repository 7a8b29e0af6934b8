-- expect: script 1
assert(not utf8.len("\xff") and not utf8.len("\xed\xa0\x80")
  and not utf8.len("\xf4\x90\x80\x80") and not utf8.len("\xc0\x80"))
for _ in utf8.codes("ab\xff") do end
