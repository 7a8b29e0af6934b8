-- An invented building: three floors of a covered market that stays open, worked in two shifts. No real place, firm or
-- person.

local cream = require "methods.cream_wet"
local again = require "methods.re_polish"

-- A helper follows the planetary with the vacuum, so that it need not stop.
local followed = tailor(cream, "cream, helper behind") {
  change "slurry 100" { follow = true },
  change "slurry 200" { follow = true },
}

return job "covered market" {
  units = "us", currency = "USD",
  start = "2027-05-03 06:00",
  finish_by = "2027-05-22 06:00",
  prices = require "prices.house_us",

  shifts = { early = { hours = "6:00 to 14:30", days = { "mon", "tue", "wed", "thu", "fri" } },
             late  = { hours = "14:00 to 22:30", days = { "mon", "tue", "wed", "thu" } } },
  site   = { closed = { "2027-05-13", "2027-05-14" }, slurry = "licensed hauler",
             circuits = { { amps = "60 A", volts = "480 V", phases = "three" }, { amps = "20 A", volts = "120 V", gfci = true },
                          { amps = "20 A", volts = "120 V", gfci = true } } },
  slab   = { hardness = 4.5, age = "9000 d", humidity = "70 %", strength = "4500 psi" },

  risk   = { production = about("85 %", "100 %", "110 %"), drying = about("90 %", "100 %", "140 %"), lost_days = "2 %" },

  crew "lead"     { skills = { "machine", "chemicals", "readings" }, shift = "early", away = { "2027-05-06" } },
  crew "operator" { count = 2, skills = { "machine", "chemicals", "readings" }, shift = "late" },
  crew "helper"   { count = 2, skills = { "chemicals" }, shift = "early" },

  machine "planetary 32 in" { does = { "hone", "polish" }, wet = true, width = "32 in", overlap = "3 in", travel = "15 ft/min",
                              tank = "25 gal", trip = "6 min", amps = "20 A", volts = "480 V", phases = "three" },
  machine "planetary 22 in" { does = { "hone", "polish" }, wet = true, width = "22 in", travel = "15 ft/min", tank = "12 gal",
                              trip = "6 min", amps = "22 A", volts = "480 V", phases = "three" },
  machine "edger 7 in"      { does = { "edges" }, amps = "11 A", volts = "120 V" },
  machine "burnisher 27 in" { does = { "burnish" }, width = "27 in", travel = "80 ft/min", amps = "14 A", volts = "120 V",
                              hours = "8:00 to 20:00", away = { "2027-05-04", "2027-05-05" } },
  machine "wet vacuum"      { count = 2, does = { "collect", "clean" }, tank = "15 gal", trip = "4 min", amps = "9 A",
                              volts = "120 V" },

  area "fish hall"  { recipe = followed, length = "52 ft", width = "38 ft", edges = "190 ft", protection = "2 h", clean_up = "45 min",
                      finish_by = "2027-05-12 06:00", opens_to = "light foot" },
  area "bread hall" { recipe = cream, length = "44 ft", width = "30 ft", protection = "90 min", clean_up = "30 min" },
  area "passage"    { recipe = again, length = "90 ft", width = "8 ft", hours = "14:00 to 23:00", protection = "30 min",
                      clean_up = "15 min" },
}
