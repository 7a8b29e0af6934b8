-- An invented building: three floors of an old mill, in metric units. No real place, firm or person.

local cream = require "methods.cream_wet"
local again = require "methods.re_polish"

return job "mill annex" {
  units = "metric", currency = "EUR",
  start = "2027-04-05 07:00",
  prices = require "prices.house_metric",

  shifts = { day = { hours = "7:00 to 16:00", days = { "mon", "tue", "wed", "thu", "fri" } },
             evening = { hours = "18:00 to 23:00", days = { "mon", "tue", "wed", "thu" }, night = true } },
  site   = { closed = { "2027-04-09" } },
  slab   = { hardness = 5, age = "400 d", humidity = "68 %" },

  crew "lead"     { skills = { "machine", "chemicals", "readings" }, shift = "day" },
  crew "operator" { count = 3, skills = { "machine", "chemicals" }, shift = "day" },

  machine "planetary 700 mm" { count = 2, does = { "hone", "polish" }, wet = true, width = "700 mm", overlap = "80 mm",
                               travel = about("4 m/min", "5 m/min", "6 m/min") },
  machine "edger 180 mm"     { count = 2, does = { "edges" } },
  machine "burnisher 500 mm" { does = { "burnish" }, width = "500 mm", overlap = "50 mm", travel = "25 m/min" },
  machine "wet vacuum"       { does = { "collect", "clean" }, rate = "500 m2/h" },

  area "weaving room" { recipe = cream, length = "18 m", width = "9 m" },
  area "stair hall"   { recipe = cream, length = "7.5 m", width = "6 m" },
  area "gallery"      { recipe = again, area = "210 m2", edges = "0 m" },
}
