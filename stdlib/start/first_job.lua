-- A first job: change the rooms, the people and the machines to your own.

local method = require "house_method"

return job "first job" {
  units = "us",
  start = "2027-03-01 07:00",
  prices = require "house_prices",
  site = { slurry = "licensed hauler" },
  shifts = { day = { hours = "7:00 to 16:00", days = { "mon", "tue", "wed", "thu", "fri" } } },

  crew "lead"     { skills = { "machine", "chemicals", "readings" }, shift = "day" },
  crew "operator" { skills = { "machine", "chemicals" }, shift = "day" },

  machine "planetary"  { does = { "hone", "polish" }, wet = true, width = "28 in" },
  machine "edger"      { does = { "edges" } },
  machine "burnisher"  { does = { "burnish" }, width = "27 in", travel = "80 ft/min" },
  machine "wet vacuum" { does = { "collect", "clean" } },

  area "main floor" { recipe = method, length = "50 ft", width = "40 ft" },
}
