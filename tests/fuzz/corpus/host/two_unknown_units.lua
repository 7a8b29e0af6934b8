-- An invented building: four floors of a public hall, worked at night. No real place, firm or person.

local cream = require "methods.cream_wet"
local dyed  = require "methods.salt_and_pepper_dyed"

return job "north hall" {
  units = "us", currency = "USD",
  start = "2027-03-01 20:00",
  finish_by = "2027-03-20 06:00",
  prices = require "prices.house_us",

  shifts = { night = { hours = "20:00 to 06:00", days = { "mon", "tue", "wed", "thu", "fri" }, night = true } },
  site   = { hours = "19:00 to 07:00", closed = { "2027-03-07" } },
  slab   = { hardness = 4.5, age = "3000 d", humidity = "72 %", strength = "4000 psi" },

  crew "lead"     { skills = { "machine", "chemicals", "readings" }, shift = "night" },
  crew "operator" { count = 2, skills = { "machine", "chemicals" }, shift = "night" },
  crew "helper"   { skills = { "chemicals" }, shift = "night" },

  machine "planetary 32 in" { does = { "grind", "hone", "polish" }, wet = true, width = "32 in", overlap = "3 in",
                              travel = "15 ft/min", turn = "20 s", duty = "80 %" },
  machine "planetary 22 in" { does = { "grind", "hone", "polish" }, wet = true, width = "22 in", travel = "15 ft/min" },
  machine "edger 7 in"      { count = 2, does = { "edges" } },
  machine "burnisher 27 in" { does = { "burnish" }, width = "27 in", travel = "80 ft/min" },
  machine "wet vacuum"      { count = 2, does = { "collect", "clean" } },

  area "entrance"   { recipe = cream, length = "48 dt", width = "36 f4", edges = "180 ft" },
  area "corridor"   { recipe = cream, length = "110 ft", width = "9 ft", hours = "20:00 to 05:30",
                      set = { ["opening passes"] = 5 } },
  area "showroom"   { recipe = dyed, length = "40 ft", width = "30 ft", joints = "96 ft" },
  area "store room" { recipe = cream, area = "900 sqft", edges = "150 ft" },
}
