-- expect: unit 1 `overlap`
return recipe "s" { hone "a" { overlap = "1 " .. ("in*"):rep(10000) .. "in" } }
