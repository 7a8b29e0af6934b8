--- Reading a price book.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local record = require "core.record"
local types = require "core.types"

local prices = {}

local percent = types.quantity("fraction", { least = "0 %", most = "1000 %" })
local share = types.quantity("fraction", { least = "0 %" })

prices.PER = { "job", "area", "m2", "sqft", "m", "ft", "day", "person day", "reading", "L slurry", "gal slurry" }

local a_name = types.map(percent)

-- One percentage, or percentages by name that add up.
local shares = { says = "a percentage, or percentages by name", examples = { '"31 %"' } }
function shares.read(v, slot)
  if type(v) ~= "table" or object.data(v) then return percent.read(v, slot) end
  local parts = a_name.read(v, slot)
  return parts and { parts = parts }
end

local owned = types.record {
  { "price", types.price("money"), says = "what the machine cost", required = true, example = '"$30,000"' },
  { "salvage", types.quantity("fraction", { least = "0 %", most = "100 %" }), says = "share of that left at the end of its life",
    default = "0 %", basis = "nothing is left unless said" },
  { "life", types.quantity("time"), says = "hours it works in its life", required = true, example = '"6000 h"' },
  { "a_year", types.quantity("time"), says = "hours it works in a year", required = true, example = '"1200 h"' },
  { "capital", types.quantity("fraction", { least = "0 %", most = "100 %" }), says = "interest a year on what it is worth",
    default = "0 %", basis = "no cost of capital said" },
}

prices.fields = {
  { "currency", types.text("a currency code"), says = "ISO 4217 code", default = "USD", basis = "US dollars unless said" },
  { "from", types.date, says = "first day the prices hold" },
  { "to", types.date, says = "last day the prices hold" },
  { "labour", types.map(types.price("pay rate")), says = "wage by crew class", required = true,
    example = '{ operator = "$31/h" }' },
  { "burden", shares, says = "taxes, insurance and benefits on wages: one share, or shares by name that add up", default = "0 %",
    basis = "no burden said: wages stand bare", example = '{ ["social security"] = "6.2 %", medicare = "1.45 %" }' },
  { "night", percent, says = "premium on wages for hours in a night shift", default = "0 %", basis = "no night premium said" },
  { "overtime", types.record {
    { "after", types.quantity("time", { least = "0 h", most = "24 h" }), says = "hours a day", example = '"8 h"' },
    { "weekly", types.quantity("time", { least = "0 h", most = "168 h" }), says = "hours a week, which begins on Monday",
      example = '"40 h"' },
    { "premium", percent, says = "premium on wages", required = true, example = '"50 %"' },
  }, says = "premium past so many hours of a person, a day or a week; an hour past both counts once",
    example = '{ after = "8 h", weekly = "40 h", premium = "50 %" }' },
  { "call_out", types.quantity("time", { least = "0 h", most = "24 h" }), says = "least time that a person is paid for a shift",
    example = '"4 h"' },
  { "standing", types.quantity("fraction", { least = "0 %", most = "100 %" }),
    says = "share that is paid of the time between a person's booked work of a shift", default = "100 %",
    basis = "people are paid while they wait between pieces of work of a shift" },
  { "tools", types.map(types.record {
    { "price", types.price("money"), says = "of a set", required = true, example = '"$95"' },
    { "life", types.quantity("area per count", { least = "1 sqft/set" }), says = "floor that a set lasts for", required = true,
      example = '"9000 sqft/set"' },
  }), says = "abrasive sets by bond and grit", example = '{ ["resin 400"] = { price = "$95", life = "9000 sqft/set" } }' },
  { "materials", types.map(types.list(types.record {
    { "size", types.package, says = "what a package holds", required = true, example = '"5 gal"' },
    { "price", types.price("money"), says = "of a package", required = true, example = '"$185"' },
    { "gives", types.quantity("volume"), says = "what a package sold by mass or piece makes", example = '"6.2 gal"' },
  }, "a list of packages: { { size = ..., price = ... } }")), says = "packages by chemical or filler",
    example = '{ ["lithium silicate"] = { { size = "5 gal", price = "$185" } } }' },
  { "machines", types.map(types.record {
    { "hour", types.price("pay rate"), says = "for each running hour" },
    { "day", types.price("money"), says = "for each day on site" },
    { "week", types.price("money"), says = "hire for 7 calendar days; with it or `month`, hire runs by the calendar" },
    { "month", types.price("money"), says = "hire for 28 calendar days; the cheapest mix of day, week and month counts" },
    { "owned", owned, says = "a machine of one's own: what owning it costs for each hour on the job",
      example = '{ price = "$30,000", salvage = "15 %", life = "6000 h", a_year = "1200 h", capital = "6 %" }' },
  }), says = "machine rates by class", example = '{ ["planetary 32 in"] = { hour = "$24/h" } }' },
  { "extras", types.map(types.record {
    { "price", types.quantity("money"), says = "of one", required = true, example = '"$450"' },
    { "per", types.choice(prices.PER), says = "one what", required = true, example = '"job"' },
    { "times", types.number(0), says = "how many at each, such as miles a day", example = "60" },
  }), says = "all else that is charged", example = '{ mobilisation = { price = "$450", per = "job" } }' },
  { "material_tax", percent, says = "sales tax on tools and materials", default = "0 %", basis = "no tax said" },
  { "labour_tax", percent, says = "sales tax on wages, premiums and burden" },
  { "machine_tax", percent, says = "sales tax on machines" },
  { "extra_tax", percent, says = "sales tax on extras" },
  { "overhead", percent, says = "on direct cost", default = "0 %", basis = "no overhead said" },
  { "contingency", percent, says = "on direct cost and overhead", default = "0 %", basis = "no contingency said" },
  { "margin", share, says = "profit as a share of the price", example = '"18 %"' },
  { "markup", percent, says = "profit as a share of the cost" },
  { "round", types.price("money"), says = "the price goes up to a whole multiple of this", example = '"$10"' },
}

local function profit(data)
  local values, at = data.record.values, data.record.at
  if values.margin and values.markup then
    finding.error { code = "field", at = at.markup, message = "a price book has `margin` or `markup`, not both",
      labels = { { at = at.margin, text = "the margin" } },
      help = "a margin is a share of the price, a markup a share of the cost: 20 % margin is 25 % markup" }
  end
  if values.margin and values.margin:to("%") >= 100 then
    finding.error { code = "range", at = at.margin,
      message = ("a margin of %s has no price: price = cost / (1 - margin)"):format(values.margin),
      help = "a margin is below 100 %; a markup may be more" }
  end
end

function prices.from_script(from)
  local currency = from.raw.fields.currency
  local code = currency and type(currency.value) == "string" and currency.value or "USD"
  local data = { word = "prices", name = from.name, at = from.at, name_at = from.name_at, raw = from.raw }
  data.record = record.read(from.raw, prices.fields, { owner = document.label(data),
    at = from.name_at ~= 0 and from.name_at or from.at, currency = code })
  profit(data)
  for _, item in ipairs(from.raw.items) do
    finding.error { code = "form", at = item.at, message = "a price book takes named fields only" }
  end
  return object.new(document.class, data)
end

return prices
