--- Reading a price book.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local record = require "core.record"
local types = require "core.types"

local prices = {}

local percent = types.quantity("fraction", { least = "0 %", most = "1000 %" })
local share = types.quantity("fraction", { least = "0 %", most = "1000000 %" })

prices.PER = { "job", "area", "m2", "sqft", "m", "ft", "day", "person day", "reading", "L slurry", "gal slurry" }

local a_name = types.map(percent)

local function fields_with(fields, more)
  for _, field in ipairs(more) do fields[#fields + 1] = field end
  return fields
end

-- One percentage, or percentages by name that add up.
local shares = { says = "a percentage, or percentages by name", examples = { '"31 %"' } }
function shares.read(v, slot)
  if not object.is_plain(v) then return percent.read(v, slot) end
  local parts = a_name.read(v, slot)
  return parts and { parts = parts }
end

-- The days on which a price holds, for those that have days of their own.
local DATES = {
  { "from", types.date, says = "first day this price holds; else the book's" },
  { "to", types.date, says = "last day this price holds; else the book's" },
}

local function day(date) return ("%04d-%02d-%02d"):format(date.year, date.month, date.day) end

local function refuse_backward(read, slot)
  local from, to = read.values.from, read.values.to
  if not from or not to or day(from) <= day(to) then return end
  finding.error { code = "range", at = read.at.to,
    message = ("`to` of %s is before its `from`: %s, %s"):format(slot.field, day(to), day(from)) }
end

-- A price as a table of fields, with its days.
local function price_of(fields, says) return types.record(fields_with(fields, DATES), says, refuse_backward) end

local wage = types.either(types.price("pay rate"), price_of({
  { "rate", types.price("pay rate"), says = "the wage", required = true, example = '"$31/h"' },
}, "{ rate = ..., from = ..., to = ... }"))

-- A share, or as much as makes the cost so certain. Both at once would be two contingencies.
local certainty = types.quantity("fraction", { least = "50 %", most = "99 %" })
certainty.uncertain = false
local contingency = types.either(percent, types.record({
  { "certainty", certainty, says = "as much as it takes for this share of the simulated costs of the job (see `risk`)",
    required = true, example = '"80 %"' },
}, '{ certainty = "80 %" }'))
local read_contingency = contingency.read
function contingency.read(v, slot)
  if type(v) ~= "table" or object.data(v) or v[1] == nil then return read_contingency(v, slot) end
  finding.error { code = "field", at = slot.at, message = "a contingency is a share or comes from risk, not both",
    help = 'write contingency = "5 %" or contingency = { certainty = "80 %" }' }
  return nil
end

local HOURS_OF_WORK = { least = "1 h", most = "1000000 h" }

local owned = types.record {
  { "price", types.price("money"), says = "what the machine cost", required = true, example = '"$30,000"' },
  { "salvage", types.quantity("fraction", { least = "0 %", most = "100 %" }), says = "share of that left at the end of its life",
    default = "0 %", basis = "nothing is left unless said" },
  { "life", types.quantity("time", HOURS_OF_WORK), says = "hours it works in its life", required = true,
    example = '"6000 h"' },
  { "a_year", types.quantity("time", HOURS_OF_WORK), says = "hours it works in a year", required = true, example = '"1200 h"' },
  { "capital", types.quantity("fraction", { least = "0 %", most = "100 %" }), says = "interest a year on what it is worth",
    default = "0 %", basis = "no cost of capital said" },
}

prices.fields = {
  { "currency", types.currency, says = "ISO 4217 code", default = "USD", basis = "US dollars unless said" },
  { "from", types.date, says = "first day the prices hold" },
  { "to", types.date, says = "last day the prices hold" },
  { "labour", types.map(wage), says = "wage by crew class", required = true,
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
  { "tools", types.map(price_of {
    { "price", types.price("money"), says = "of a set", required = true, example = '"$95"' },
    { "life", types.quantity("area per count", { least = "1 sqft/set", most = "100000000 sqft/set" }), required = true,
      says = "floor that a set lasts for",
      example = '"9000 sqft/set"' },
  }), says = "abrasive sets by bond and grit", example = '{ ["resin 400"] = { price = "$95", life = "9000 sqft/set" } }' },
  { "materials", types.map(types.list(price_of {
    { "size", types.package, says = "what a package holds", required = true, example = '"5 gal"' },
    { "price", types.price("money"), says = "of a package", required = true, example = '"$185"' },
    { "gives", types.quantity("volume", { least = "0.001 gal", most = "100000 gal" }), says = "what a package sold by mass or piece makes", example = '"6.2 gal"' },
  }, "a list of packages: { { size = ..., price = ... } }")), says = "packages by chemical or filler",
    example = '{ ["lithium silicate"] = { { size = "5 gal", price = "$185" } } }' },
  { "machines", types.map(price_of {
    { "hour", types.price("pay rate"), says = "for each running hour" },
    { "day", types.price("money"), says = "for each day on site" },
    { "week", types.price("money"), says = "hire for 7 calendar days; with it or `month`, hire runs by the calendar" },
    { "month", types.price("money"), says = "hire for 28 calendar days; the cheapest mix of day, week and month counts" },
    { "owned", owned, says = "a machine of one's own: what owning it costs for each hour on the job",
      example = '{ price = "$30,000", salvage = "15 %", life = "6000 h", a_year = "1200 h", capital = "6 %" }' },
  }), says = "machine rates by class", example = '{ ["planetary 32 in"] = { hour = "$24/h" } }' },
  { "extras", types.map(price_of {
    { "price", types.quantity("money"), says = "of one", required = true, example = '"$450"' },
    { "per", types.choice(prices.PER), says = "one what", required = true, example = '"job"' },
    { "times", types.number(0, 1000000), says = "how many at each, such as miles a day", example = "60" },
  }), says = "all else that is charged", example = '{ mobilisation = { price = "$450", per = "job" } }' },
  { "material_tax", percent, says = "sales tax on tools and materials", default = "0 %", basis = "no tax said" },
  { "labour_tax", percent, says = "sales tax on wages, premiums and burden" },
  { "machine_tax", percent, says = "sales tax on machines" },
  { "extra_tax", percent, says = "sales tax on extras" },
  { "overhead", percent, says = "on direct cost", default = "0 %", basis = "no overhead said" },
  { "contingency", contingency, says = "on direct cost and overhead: a share of them, or what the job's risk takes",
    default = "0 %", basis = "no contingency said", example = '{ certainty = "80 %" }' },
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

-- What the search for the cheapest mix takes at most.
local SIZES_MOST = 8

local function refuse_many_sizes(data)
  for _, material in ipairs(data.record.values.materials or {}) do
    if #material.value > SIZES_MOST then
      finding.error { code = "range", at = material.at,
        message = ("`%s` has %d package sizes, more than %d"):format(material.name, #material.value, SIZES_MOST),
        help = "keep the sizes that you buy" }
    end
  end
end

function prices.from_script(from)
  local code = types.currency_of(from.raw.fields.currency)
  local data = { word = "prices", name = from.name, at = from.at, name_at = from.name_at, raw = from.raw }
  data.record = record.read(from.raw, prices.fields, { owner = document.label(data),
    at = from.name_at ~= 0 and from.name_at or from.at, currency = code })
  profit(data)
  refuse_many_sizes(data)
  refuse_backward(data.record, { field = document.label(data) })
  for _, item in ipairs(from.raw.items) do
    finding.error { code = "form", at = item.at, message = "a price book takes named fields only" }
  end
  return object.new(document.class, data)
end

return prices
