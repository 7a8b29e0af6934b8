-- expect: script 1 \x1b[31m
error "\27[31m\27]0;title\7\r\n-- expect: forged 0\n\u{202e}%n%s\127"
