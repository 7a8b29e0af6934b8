-- An invented price book: none of these figures is anybody's price.

return prices "house, invented, US dollars" {
  currency = "USD",
  from = "2027-01-01", to = "2027-12-31",

  labour = { lead = "$41/h", operator = "$34/h", helper = "$26/h" },
  burden = "31 %",
  night = "12 %",
  overtime = { after = "8 h", premium = "50 %" },

  tools = {
    ["metal 40"]          = { price = "$310", life = "9000 sqft/set" },
    ["metal 80"]          = { price = "$310", life = "12000 sqft/set" },
    ["transitional 100"]  = { price = "$240", life = "8000 sqft/set" },
    ["resin 100"]         = { price = "$180", life = "6000 sqft/set" },
    ["resin 200"]         = { price = "$180", life = "7000 sqft/set" },
    ["resin 400"]         = { price = "$170", life = "12000 sqft/set" },
    ["resin 800"]         = { price = "$170", life = "18000 sqft/set" },
    ["resin 1500"]        = { price = "$170", life = "22000 sqft/set" },
    ["resin 3000"]        = { price = "$170", life = "25000 sqft/set" },
    ["fibre 800"]         = { price = "$65", life = "20000 sqft/set" },
    ["fibre 1500"]        = { price = "$65", life = "25000 sqft/set" },
    ["fibre 3000"]        = { price = "$65", life = "30000 sqft/set" },
  },

  materials = {
    ["lithium silicate"] = { { size = "1 gal", price = "$48" }, { size = "5 gal", price = "$205" } },
    ["acetone dye"]      = { { size = "1 gal", price = "$62" }, { size = "5 gal", price = "$270" } },
    ["stain guard"]      = { { size = "1 gal", price = "$95" }, { size = "5 gal", price = "$410" } },
    ["polyurea"]         = { { size = "2 gal", price = "$140" }, { size = "10 gal", price = "$620" } },
  },

  machines = {
    ["planetary 32 in"] = { hour = "$26/h" },
    ["planetary 22 in"] = { hour = "$16/h" },
    ["edger 7 in"]      = { hour = "$5/h" },
    ["burnisher 27 in"] = { day = "$60" },
    ["wet vacuum"]      = { hour = "$4/h" },
  },

  extras = {
    ["mobilisation"]    = { price = "$850", per = "job" },
    ["protection"]      = { price = "$0.12", per = "sqft" },
    ["slurry disposal"] = { price = "$1.10", per = "gal slurry" },
    ["power and light"] = { price = "$45", per = "day" },
  },

  material_tax = "7 %",
  overhead = "12 %",
  contingency = "5 %",
  margin = "18 %",
}
