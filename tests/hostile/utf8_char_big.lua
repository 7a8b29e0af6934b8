-- expect: script 1
local s = utf8.char(0x110000)
