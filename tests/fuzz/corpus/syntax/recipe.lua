return recipe "cream, wet resin chain" {
  revision = "4",
  finish   = { exposure = "cream", appearance = "polished" },
  hone    "open"     { grit = 100, bond = "resin", wet = true, passes = n + 1, overlap = [[
3
in]] },
  x = a.b:c(1):d "x" { 1 }, y = a.b + c.d,
}
