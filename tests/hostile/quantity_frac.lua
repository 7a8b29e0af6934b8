-- expect: unit 1 `overlap`
return recipe "s" { hone "a" { overlap = "1 1/0 in" } }
