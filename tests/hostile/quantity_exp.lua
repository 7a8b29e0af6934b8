-- expect: unit 1 `overlap`
return recipe "s" { hone "a" { overlap = "1e99999999999999999999 in" } }
