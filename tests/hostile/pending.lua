-- expect: form 1
return recipe "r" { hone "a" }
