-- expect: field 1 \x1b[31m\u{202e}
return recipe "s" { ["\27[31m\u{202e}"] = 1 }
