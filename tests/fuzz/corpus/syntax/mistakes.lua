local x <const> = 3
x = 4
return recipe "a" {
  hone "open" { grit = 100 bond = "resin" }
  hone "200" { grit: 200, passes == 3, overlap = 3 in, dwell = between(5 min, 6 min), humidity = 80 % },
  clean “wash” { with = "water", end = 3, "x": 4 },
  if = 4,
  // remark here
  hone "400" { grit != 3, a = b && c, d = !e },
  hone "500" { grit = 400,
  hone "600" { grit = 600 },
  dwell = between("25 min", "45 min",
  keep = "wet"
}
