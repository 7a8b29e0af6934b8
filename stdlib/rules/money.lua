--- Prices: more than bare cost.
local chain = require "core.chain"

local function check_bare(job, report)
  local prices = chain.get(job, "prices")
  if prices and not chain.get(prices, "margin") and not chain.get(prices, "markup") then
    local overhead = chain.number(prices, "overhead", "%")
    if overhead == 0 and chain.written(prices, "overhead") then
      report { on = prices, field = "overhead", message = ("%s has no overhead and no profit: the price is bare cost"):format(prices.name) }
    end
  end
end

local BOOK = 'prices = prices "book" { %s labour = { operator = "$30/h" }, machines = { planetary = { hour = "$20/h" } },\n'
  .. '  tools = { ["resin 100"] = { price = "$180", life = "6000 sqft/set" } } },'

return {
  {
    id = "prices-bare", level = "warning", scope = "job", says = "a price has overhead or profit on its cost",
    basis = "a shop lives from it", status = "common practice", help = 'add overhead, and margin or markup',
    bad = BOOK:format 'overhead = "0 %",', good = BOOK:format 'overhead = "12 %", margin = "18 %",', check = check_bare,
  },
}
