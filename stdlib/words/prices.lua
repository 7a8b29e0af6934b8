--- prices: a price book.
local prices = require "core.prices"

return {
  kind = "document",
  says = "a price book: wages, tools, materials, machines, and how the price is made",
  example = 'prices "house 2027" { labour = { operator = "$31/h" }, margin = "18 %" }',
  fields = prices.fields,
  build = prices.from_script,
}
