-- Your price book. Every figure here is invented: put in your own.

return prices "house prices (invented figures)" {
  currency = "USD",
  labour = { lead = "$40/h", operator = "$33/h" },
  burden = "30 %",
  tools = {
    ["resin 100"]  = { price = "$180", life = "6000 sqft/set" },
    ["resin 200"]  = { price = "$180", life = "7000 sqft/set" },
    ["resin 400"]  = { price = "$170", life = "12000 sqft/set" },
    ["resin 800"]  = { price = "$170", life = "18000 sqft/set" },
    ["fibre 1500"] = { price = "$65", life = "25000 sqft/set" },
  },
  materials = { ["lithium silicate"] = { { size = "1 gal", price = "$48" }, { size = "5 gal", price = "$205" } } },
  machines = { ["planetary"] = { hour = "$24/h" }, ["edger"] = { hour = "$5/h" }, ["burnisher"] = { day = "$60" },
               ["wet vacuum"] = { hour = "$4/h" } },
  extras = { ["mobilisation"] = { price = "$600", per = "job" } },
  overhead = "12 %",
  contingency = "5 %",
  margin = "18 %",
}
