--- Prices: more than bare cost.
local chain = require "core.chain"

local function check_bare(job, report)
  local prices = chain.get(job, "prices")
  if prices and not chain.get(prices, "margin") and not chain.get(prices, "markup") then
    local overhead = chain.number(prices, "overhead", "%")
    if overhead == 0 and chain.written(prices, "overhead") then
      report { on = prices, field = "overhead",
        message = ("%s has no overhead and no profit: the price is bare cost"):format(prices.name) }
    end
  end
end

return {
  {
    id = "prices-bare", level = "warning", scope = "job",
    says = "a price has overhead or profit on its cost",
    basis = "a shop lives from it", status = "common practice",
    help = "add overhead, and margin or markup",
    bad = [[
      prices = prices "book" { overhead = "0 %", labour = { operator = "$30/h" },
        machines = { planetary = { hour = "$20/h" } },
        tools = { ["resin 100"] = { price = "$180", life = "6000 sqft/set" } } },
    ]],
    good = [[
      prices = prices "book" { overhead = "12 %", margin = "18 %", labour = { operator = "$30/h" },
        machines = { planetary = { hour = "$20/h" } },
        tools = { ["resin 100"] = { price = "$180", life = "6000 sqft/set" } } },
    ]],
    check = check_bare,
  },
}
