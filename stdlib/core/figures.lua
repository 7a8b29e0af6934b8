--- Types of fields that hold figures: quantities, prices, numbers, windows over them, package sizes. See core.types.
local finding = require "core.finding"
local object = require "core.object"
local quantity = require "native.quantity"
local typing = require "core.typing"
local value = require "core.value"

local article, label, refuse, wrong_type = typing.article, typing.label, typing.refuse, typing.wrong_type

local figures = {}

-- ---- quantities

local function spellings(kind)
  local list = {}
  for n = 1, 3 do
    local spelling = quantity.example(kind, n)
    list[n] = (spelling:find('"') and "[[%s]]" or '"%s"'):format(spelling)
  end
  return list
end

local function read_text(text, slot, kind)
  local q, message, help, first, last = quantity.read(text, slot.metric, slot.currency)
  if q then return q end
  local at = finding.within(slot.at, first, last)
  local range = slot.window and require("core.respelt").range(text, slot)
  local what = { code = "unit", at = at, message = ("%s: %s"):format(label(slot), message), note = typing.note_of(slot),
    help = range and "write " .. range or help ~= "" and help or "write it like " .. spellings(kind)[1] }
  if range and finding.is_quoted(slot.at, text) then
    what.fix, what.fix_at, what.safe = range, slot.at, true
  elseif at ~= slot.at then
    what.fix = help:match("^did you mean `([^`\"\\]+)`%?$")
  end
  finding.error(what)
  return nil
end

-- The example of a field with the number that was written without a unit: 3 where "2 in" is usual becomes "3 in".
local function with_usual_unit(slot)
  local number = finding.plain_number(slot.at)
  if not number or type(slot.example) ~= "string" then return nil end
  local text, numbers = (slot.example:match('"(.-)"') or slot.example):gsub("%d[%d.,]*", number)
  return numbers == 1 and not text:find('[%c"\\]') and ('"%s"'):format(text) or nil
end

-- Numbers below this are shares of one (0.12, 1.15), others are percents: nobody means 1200 % by 12.
local SHARES_BELOW = 2

-- A share without its sign.
local function as_share(number, slot)
  if number < SHARES_BELOW then return quantity.of(number, "fraction", "", "%") end
  local meant = ('"%g %%"'):format(number)
  return refuse(slot, "unit", ("%s needs a share, got the bare number %g"):format(label(slot), number), "write " .. meant,
    { fix = finding.plain_number(slot.at) and meant or nil })
end

local function as_quantity(v, kind, slot)
  if type(v) == "string" then
    v = read_text(v, slot, kind)
    if not v then return nil end
  elseif type(v) == "number" then
    local share = kind == "fraction" and v > 0 and ('"%g %%"'):format(v < SHARES_BELOW and v * 100 or v)
    return refuse(slot, "unit", ("%s needs %s with its unit, got the bare number %s"):format(label(slot), article(kind), v),
      share and "write " .. share or "write for instance " .. typing.assignment(slot.field, table.concat(spellings(kind), ", ")),
      { fix = share and finding.plain_number(slot.at) and share or with_usual_unit(slot) })
  elseif not quantity.is(v) then
    return wrong_type(slot, { says = article(kind), examples = spellings(kind) }, v)
  end
  local fits, message, help = v:fits(kind)
  if not fits then
    return refuse(slot, "dimension", ("%s: %s"):format(label(slot), message), help ~= "" and help or nil,
      { fix = with_usual_unit(slot) })
  end
  if kind == "fraction" and v:kind() ~= kind then return as_share(v:value(), slot) end
  local currency = v:currency()
  if currency and slot.currency and currency ~= slot.currency then
    return refuse(slot, "currency", ("%s is in %s, but this document reckons in %s"):format(label(slot), currency, slot.currency),
      "one document has one currency")
  end
  return v
end

local function limit(kind, text) return text and quantity.read(text) or nil, kind end

local function in_limits(self, v, slot)
  local low, high = self.low, self.high
  if (low and v < low) or (high and v > high) then
    local bounds = low and high and ("%s to %s"):format(low, high) or low and ("at least %s"):format(low)
      or ("at most %s"):format(high)
    return refuse(slot, "range", ("%s must be %s, got %s"):format(label(slot), bounds, v))
  end
  return v
end

-- What no floor, machine or job has more or less of, for fields that say nothing closer. It keeps a slip of the
-- pen, and what is written to break the reckoning, out of it.
local WORLD = {
  time = { least = "0 min", most = "100000 d" },
  area = { least = "0 sqft", most = "100000000 sqft" },
  volume = { least = "0 gal", most = "1000000 gal" },
  speed = { least = "0 ft/min", most = "20000 ft/min" },
  temperature = { least = "-60 C", most = "80 C" },
  pressure = { least = "0 psi", most = "100000 psi" },
  flow = { least = "0 cfm", most = "10000000 cfm" },
  fraction = { least = "0 %", most = "1000 %" },
  ["production rate"] = { least = "1 sqft/h", most = "1000000 sqft/h" },
  ["spread rate"] = { least = "1 sqft/gal", most = "100000 sqft/gal" },
  ["area per count"] = { most = "100000000 sqft/set" },
}

--- A quantity of a kind: figures.quantity("length", { least = "0.5 in", most = "6 ft" }). Without limits those of the
-- world hold; `{}` is none at all.
function figures.quantity(kind, limits)
  limits = limits or WORLD[kind] or {}
  local self = typing.with_examples({ says = article(kind), kind = kind, uncertain = true, figure = true },
    function() return spellings(kind) end)
  self.low, self.high = limit(kind, limits.least), limit(kind, limits.most)
  function self.read(v, slot)
    local q = as_quantity(v, kind, slot)
    return q and in_limits(self, q, slot)
  end
  return self
end

--- Money, or money for something, that cannot be less than nothing, in any currency.
function figures.price(kind)
  local self = figures.quantity(kind)
  local read = self.read
  function self.read(v, slot)
    local q = read(v, slot)
    if q and q:value() < 0 then
      return refuse(slot, "range", ("%s must not be negative, got %s"):format(label(slot), q), "write what it costs; a discount is an extra")
    end
    return q
  end
  return self
end

-- ---- numbers

-- A number in quotes, as it should stand without them.
local function bare_number(text) return text:match("^%d+%.?%d*$") end

--- A number without a unit.
function figures.number(low, high)
  local self = { says = "a number", examples = { tostring(low or 1) }, low = low, high = high, uncertain = true, figure = true,
    bare = bare_number }
  function self.read(v, slot)
    if type(v) ~= "number" then return wrong_type(slot, self, v) end
    if v ~= v or v - v ~= 0 then return refuse(slot, "range", label(slot) .. " must be a finite number") end
    return in_limits(self, v, slot)
  end
  return self
end

--- A whole number.
function figures.whole(low, high)
  local self = { says = "a whole number", examples = { tostring(low or 1) }, low = low, high = high, uncertain = true,
    figure = true, bare = bare_number }
  function self.read(v, slot)
    if math.type(v) == "float" and math.tointeger(v) then v = math.tointeger(v) end
    if math.type(v) ~= "integer" then return wrong_type(slot, self, v) end
    return in_limits(self, v, slot)
  end
  return self
end

-- ---- windows

local function end_slot(slot, data, which)
  local at = data.places and data.places[which]
  return setmetatable({ at = at and at ~= 0 and at or slot.at }, { __index = slot })
end

--- A window over another type: between(a, b), at_least(a), at_most(b). One value stands for both ends; in a window
-- `{ from = true }` it stands for the lower end alone ("dry for an hour" means an hour or longer).
function figures.window(of, options)
  if type(of) == "string" then of = figures.quantity(of) end
  local self = typing.with_examples({ says = "a window of " .. of.says, kind = of.kind, window = true },
    function() return { ("between(%s, %s)"):format(of.examples[1], of.examples[2] or of.examples[1]) } end)
  function self.read(v, slot)
    local data = object.data(v, value.window)
    if not data then
      local point = of.read(v, setmetatable({ window = true }, { __index = slot }))
      if point == nil then return nil end
      return options and options.from and { low = point } or { low = point, high = point }
    end
    local low, high
    if data.low ~= nil then low = of.read(data.low, end_slot(slot, data, "low")) end
    if data.high ~= nil then high = of.read(data.high, end_slot(slot, data, "high")) end
    if (data.low ~= nil and low == nil) or (data.high ~= nil and high == nil) then return nil end
    if low and high and low > high then
      return refuse(slot, "range", ("%s: the window's lower end %s is above its upper end %s"):format(label(slot), low, high),
        "write the smaller value first",
        { fix = finding.swapped(slot.at, data.places and data.places.low or 0, data.places and data.places.high or 0) })
    end
    return { low = low, high = high }
  end
  return self
end

-- ---- packages

--- What a package holds: a volume, a mass, or pieces.
figures.package = { says = "a package size", examples = { '"5 gal"', '"50 lb"', '"1 set"' } }
function figures.package.read(v, slot)
  local q = v
  if type(v) == "string" then
    q = read_text(v, slot, "volume")
    if not q then return nil end
  end
  if not quantity.is(q) then return wrong_type(slot, figures.package, v) end
  local kind = q:kind()
  if (kind == "volume" or kind == "mass" or kind == "count") and q:value() > 0 then return q end
  return refuse(slot, "dimension", ("%s needs a volume, a mass or a count above zero, got %s (%s)"):format(label(slot), q, kind))
end

return figures
