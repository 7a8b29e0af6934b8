--- Types of fields. A type reads what a script wrote into what the engine uses, or reports what is wrong and
-- answers nil. Each carries `says` (for messages and the manual) and `examples`.
--
-- A slot is where a value was written: at (place of the value), owner ("hone"), field ("overlap"), metric,
-- currency.
local clock = require "core.clock"
local finding = require "core.finding"
local object = require "core.object"
local place = require "native.place"
local quantity = require "native.quantity"
local value = require "core.value"
local what_if = require "core.what_if"

local types = {}

local VOWELS = { a = true, e = true, i = true, o = true, u = true }

local function article(noun)
  if noun == "money" then return noun end
  return (VOWELS[noun:sub(1, 1)] and "an " or "a ") .. noun
end

local function label(slot) return ("`%s` of %s"):format(slot.field, slot.owner) end

-- The place shows what is written; the value may be one that was given for this run.
local function note_of(slot) return slot.given and "given for this run: " .. slot.given end

--- Reports a value that does not fit.
local function refuse(slot, code, message, help, extra)
  local what = { code = code, at = slot.at, message = message, help = help, note = note_of(slot) }
  for k, v in pairs(extra or {}) do what[k] = v end
  finding.error(what)
  return nil
end

-- A default or an example as it would be written.
local function as_written(example)
  if type(example) ~= "string" then return tostring(example) end
  local is_source = example:find('^["{%[]') or example:find('^[%a_]+%s*[("{]') or tonumber(example)
  return is_source and example or '"' .. example .. '"'
end

local function assignment(field, text)
  return ("%s = %s"):format(field:find("^[%a_][%w_]*$") and field or ('["%s"]'):format(field), text)
end

-- What stands for something that already has a finding gets no second one.
local function wrong_type(slot, wanted, got)
  if value.is_unknown(got) then return nil end
  local range = slot.window and type(got) == "string" and wanted.bare and require("core.respelt").numbers(got)
  if range then
    return refuse(slot, "type", ("%s needs %s, got %s"):format(label(slot), wanted.says, object.describe(got)),
      "write " .. range, { fix = finding.is_quoted(slot.at, got) and range or nil, safe = true })
  end
  local bare = type(got) == "string" and wanted.bare and wanted.bare(got)
  if bare then
    return refuse(slot, "type", ("%s needs %s, got %s"):format(label(slot), wanted.says, object.describe(got)),
      "write it without quotes: " .. bare, { fix = finding.is_quoted(slot.at, got) and bare or nil, safe = true })
  end
  return refuse(slot, "type", ("%s needs %s, got %s"):format(label(slot), wanted.says, object.describe(got)),
    wanted.examples and "write for instance "
      .. assignment(slot.field, slot.example and as_written(slot.example) or wanted.examples[1]))
end

-- A number in quotes, as it should stand without them.
local function bare_number(text) return text:match("^%d+%.?%d*$") end

-- ---- quantities

local function spellings(kind)
  local list = {}
  for n = 1, 3 do
    local spelling = quantity.example(kind, n)
    list[n] = (spelling:find('"') and "[[%s]]" or '"%s"'):format(spelling)
  end
  return list
end

-- A type whose examples are made when they are asked for: sound documents never do.
local function with_examples(self, make)
  return setmetatable(self, { __index = function(_, key)
    if key ~= "examples" then return nil end
    self.examples = make()
    return self.examples
  end })
end

local function read_text(text, slot, kind)
  local q, message, help, first, last = quantity.read(text, slot.metric, slot.currency)
  if q then return q end
  local at = finding.within(slot.at, first, last)
  local range = slot.window and require("core.respelt").range(text, slot)
  local what = { code = "unit", at = at, message = ("%s: %s"):format(label(slot), message), note = note_of(slot),
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
      share and "write " .. share or "write for instance " .. assignment(slot.field, table.concat(spellings(kind), ", ")),
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

--- A quantity of a kind: types.quantity("length", { least = "0.5 in", most = "6 ft" }). Without limits those of the
-- world hold; `{}` is none at all.
function types.quantity(kind, limits)
  limits = limits or WORLD[kind] or {}
  local self = with_examples({ says = article(kind), kind = kind, uncertain = true, figure = true },
    function() return spellings(kind) end)
  self.low, self.high = limit(kind, limits.least), limit(kind, limits.most)
  function self.read(v, slot)
    local q = as_quantity(v, kind, slot)
    return q and in_limits(self, q, slot)
  end
  return self
end

--- Money, or money for something, that cannot be less than nothing, in any currency.
function types.price(kind)
  local self = types.quantity(kind)
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

--- A number without a unit.
function types.number(low, high)
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
function types.whole(low, high)
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
function types.window(of, options)
  if type(of) == "string" then of = types.quantity(of) end
  local self = with_examples({ says = "a window of " .. of.says, kind = of.kind, window = true },
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

-- ---- words, flags, choices

local TEXT_LONGEST, KEY_LONGEST = 4000, 200 -- bytes

-- False, and a finding, for a text that fits on no sheet.
local function in_length(text, slot, longest)
  if #text <= longest then return true end
  return refuse(slot, "range", ("%s has %d bytes; it may have %d at most"):format(label(slot), #text, longest)) ~= nil
end

function types.text(says)
  local self = { says = says or "a text", examples = { '"..."' } }
  function self.read(v, slot)
    if type(v) ~= "string" then return wrong_type(slot, self, v) end
    if v:find("^%s*$") then return refuse(slot, "range", label(slot) .. " is empty") end
    return in_length(v, slot, TEXT_LONGEST) and v or nil
  end
  return self
end

local FLAGS = { ["true"] = "true", ["false"] = "false", yes = "true", no = "false" }

types.flag = { says = "true or false", examples = { "true" }, bare = function(text) return FLAGS[text:lower()] end }
function types.flag.read(v, slot)
  if type(v) ~= "boolean" then return wrong_type(slot, types.flag, v) end
  return v
end

-- What the trade calls otherwise, if it is one of the names.
local function synonym(v, names)
  local meant = require("core.synonyms").choices[v:lower()]
  for _, name in ipairs(meant and names or {}) do if name == meant then return meant end end
  return nil
end

--- One of a list of words.
function types.choice(names, says)
  local self = { says = says or "one of its words", names = names, examples = { ('"%s"'):format(names[1]) } }
  function self.read(v, slot)
    if type(v) ~= "string" then return wrong_type(slot, self, v) end
    for _, name in ipairs(names) do if name == v then return v end end
    local fix, safe = finding.respelling(slot.at, v, names)
    local meant = not fix and synonym(v, names)
    if meant then
      return refuse(slot, "choice", ("%s does not know `%s`"):format(label(slot), v), ("it is called `%s` here"):format(meant),
        { fix = finding.renamed(slot.at, v, meant) })
    end
    return refuse(slot, "choice", ("%s does not know `%s`"):format(label(slot), v),
      finding.did_you_mean(v, names) or "choose one of: " .. finding.choices(names), { fix = fix, safe = safe })
  end
  return self
end

local CODES = { ["$"] = "USD", ["\u{20AC}"] = "EUR", ["\u{A3}"] = "GBP" }

types.currency = { says = "a currency code", examples = { '"USD"' } }

--- The code that a script wrote as its currency, or the usual one while that cannot be read.
function types.currency_of(written) return written and types.is_currency(written.value) and written.value or "USD" end

function types.is_currency(v) return type(v) == "string" and v:find("^%u%u%u$") ~= nil end

--- An ISO 4217 code.
function types.currency.read(v, slot)
  if type(v) ~= "string" then return wrong_type(slot, types.currency, v) end
  if types.is_currency(v) then return v end
  local capitals = v:find("^%a%a%a$") and v:upper()
  local meant = capitals or CODES[v]
  return refuse(slot, "choice", ("%s needs an ISO 4217 code, got `%s`"):format(label(slot), v),
    'three capital letters, as in "USD" or "EUR"',
    { fix = meant and finding.renamed(slot.at, v, meant) or nil, safe = capitals ~= nil })
end

-- ---- lists and tables

--- A list of one type; a single value stands for a list of one.
function types.list(of, says)
  local self = with_examples({ says = says or "a list", list = of },
    function() return { "{ " .. of.examples[1] .. " }" } end)
  function self.read(v, slot)
    if not object.is_plain(v) then
      local single = of.read(v, slot)
      return single ~= nil and { single } or nil
    end
    local result, sound = {}, true
    for i, item in ipairs(v) do
      local inner = setmetatable({ at = place.of(v, i), path = types.path_of(slot.path, i) }, { __index = slot })
      if inner.at == 0 then inner.at = slot.at end
      local read = of.read(item, inner)
      if read == nil then sound = false else result[#result + 1] = read end
    end
    return sound and result or nil
  end
  return self
end

--- The names under which what-if values reach what is called `name` below those paths.
function types.path_of(paths, name)
  if not paths then return nil end
  local all = {}
  for i, path in ipairs(paths) do all[i] = path == "" and tostring(name) or path .. "." .. name end
  return all
end

local function refuse_item(item, slot, fields)
  local names = {}
  for i, field in ipairs(fields) do names[i] = field[1] end
  return refuse({ at = item.at ~= 0 and item.at or slot.at }, "form", label(slot) .. " takes named fields only",
    "its fields are " .. finding.choices(names))
end

-- What a table of fields looks like: those that it needs, else the first.
local function record_example(fields)
  local parts = {}
  for _, field in ipairs(fields) do
    local example = as_written(field.example or field.default ~= nil and field.default or field[2].examples[1])
    if field.required then parts[#parts + 1] = field[1] .. " = " .. example end
  end
  return #parts > 0 and "{ " .. table.concat(parts, ", ") .. " }" or ("{ %s = ... }"):format(fields[1][1])
end

-- A text where a table with one field that is needed should stand is that field.
local function as_only_field(v, fields, slot)
  local only
  for _, field in ipairs(fields) do
    if field.required and only then return nil end
    if field.required then only = field[1] end
  end
  return only and type(v) == "string" and finding.is_quoted(slot.at, v)
    and ("{ %s = %s }"):format(only, finding.text(slot.at)) or nil
end

--- A table of named fields: see core.record. `check`, if given, looks at what was read.
function types.record(fields, says, check)
  local self = with_examples({ says = says or "a table of fields", fields = fields },
    function() return { record_example(fields) } end)
  function self.read(v, slot)
    if not object.is_plain(v) then
      if value.is_unknown(v) then return nil end
      local meant = as_only_field(v, fields, slot)
      return refuse(slot, "type", ("%s needs %s, got %s"):format(label(slot), self.says, object.describe(v)),
        "write " .. assignment(slot.field, meant or record_example(fields)), { fix = meant })
    end
    local record = require "core.record"
    local raw = record.overlaid(v, slot)
    if raw.items[1] then return refuse_item(raw.items[1], slot, fields) end
    local read = record.read(raw, fields, { owner = slot.field, metric = slot.metric, currency = slot.currency,
      at = slot.at, path = slot.path })
    if check then check(read, slot) end
    return read
  end
  return self
end

--- One value, or a table of named fields that says more.
function types.either(plain, record)
  local self = { says = plain.says .. " or " .. record.says, examples = plain.examples, fields = record.fields, either = true }
  function self.read(v, slot) return (object.is_plain(v) and record or plain).read(v, slot) end
  return self
end

--- A table whose keys the user chooses: { ["resin 400"] = ... }. Read into a list of { name, value, at }, by name.
function types.map(of, says)
  local self = { says = says or "a table of names", examples = { "{ ... }" }, map = of }
  function self.read(v, slot)
    if not object.is_plain(v) then return wrong_type(slot, self, v) end
    local result, sound = {}, true
    for key, item in pairs(v) do
      local at = place.of(v, key)
      local inner = setmetatable({ at = at ~= 0 and at or slot.at, field = tostring(key), owner = slot.field,
        path = types.path_of(slot.path, key), example = false }, { __index = slot })
      if type(key) ~= "string" then
        sound = refuse(inner, "type", ("%s needs a name for each entry"):format(label(slot))) or false
      elseif #key > KEY_LONGEST then
        inner.field = key:sub(1, KEY_LONGEST)
        sound = in_length(key, inner, KEY_LONGEST)
      else
        if inner.path then item, inner.given = what_if.instead(item, of, inner.path) end
        local read = of.read(item, inner)
        if read == nil then sound = false else result[#result + 1] = { name = key, value = read, at = inner.at } end
      end
    end
    table.sort(result, function(a, b) return a.name < b.name end)
    return sound and result or nil
  end
  return self
end

-- What is missing where something else than a document stands: the word before a table, or no quotes round a name.
local function document_help(word, v)
  if object.is_plain(v) then return ('put %s "name" before the { ... }'):format(word) end
  if type(v) ~= "string" then return nil end
  return v:find("^[%a_][%w_]*$") and ("without quotes if `local %s` is above; a file of its own needs require \"...\""):format(v)
    or ('require "%s", if that is its file'):format(v)
end

--- A document that another word made: types.document("prices").
function types.document(word)
  local self = { says = article(word == "prices" and "price book" or word), examples = { 'require "..."' }, document = word }
  function self.read(v, slot)
    local data = object.data(v)
    if data and data.word == word then return data end
    local help = not data and document_help(word, v)
    if not help then return wrong_type(slot, self, v) end
    return refuse(slot, "type", ("%s needs %s, got %s"):format(label(slot), self.says, object.describe(v)), help)
  end
  return self
end

--- Whatever a parameter's own field takes; it is read where the parameter stands.
types.anything = { says = "a value", examples = { "8" } }
function types.anything.read(v) return v end

--- A function of the script.
types.call = { says = "a function", examples = { "function(step, report) ... end" } }
function types.call.read(v, slot)
  if type(v) ~= "function" then return wrong_type(slot, types.call, v) end
  return v
end

--- A recipe or job, or a function that makes one when it is called.
types.either_document = { says = "a recipe or job, or a function that returns one", examples = { 'require "methods.house"' } }
function types.either_document.read(v, slot)
  local data = object.data(v)
  if type(v) == "function" or (data and (data.word == "recipe" or data.word == "job")) then return v end
  return wrong_type(slot, types.either_document, v)
end

--- What a package holds: a volume, a mass, or pieces.
types.package = { says = "a package size", examples = { '"5 gal"', '"50 lb"', '"1 set"' } }
function types.package.read(v, slot)
  local q = v
  if type(v) == "string" then
    q = read_text(v, slot, "volume")
    if not q then return nil end
  end
  if not quantity.is(q) then return wrong_type(slot, types.package, v) end
  local kind = q:kind()
  if (kind == "volume" or kind == "mass" or kind == "count") and q:value() > 0 then return q end
  return refuse(slot, "dimension", ("%s needs a volume, a mass or a count above zero, got %s (%s)"):format(label(slot), q, kind))
end

-- ---- the calendar

-- Refuses a text that can only mean one thing with that, as `which` should be written; else with an example.
local function year_help(text)
  local year = tonumber(text:match("^(%d%d%d%d)%-"))
  if not year or (year >= clock.FIRST_YEAR and year <= clock.LAST_YEAR) then return nil end
  return ("the year goes from %d to %d"):format(clock.FIRST_YEAR, clock.LAST_YEAR)
end

local function refuse_form(slot, which, code, text, example)
  local meant = require("core.respelt")[which](text)
  meant = meant and clock[which](meant) and ('"%s"'):format(meant) or nil
  local fix = finding.is_quoted(slot.at, text) and meant or nil
  return refuse(slot, code, ("%s: `%s` is not %s"):format(label(slot), text, types[which].says),
    meant and "write " .. meant or year_help(text) or example, { fix = fix, safe = true })
end

--- Hours of the day: "22:00 to 06:00"; past midnight where the end is not after the start.
types.hours = { says = "hours of the day", examples = { '"22:00 to 06:00"' } }
function types.hours.read(v, slot)
  if type(v) ~= "string" then return wrong_type(slot, types.hours, v) end
  return clock.hours(v) or refuse_form(slot, "hours", "hours", v, 'write them on the 24-hour clock: "22:00 to 06:00"')
end

--- Days of the week: "mon", or a list.
types.weekday = types.choice({ "mon", "tue", "wed", "thu", "fri", "sat", "sun" }, "a day of the week")
types.weekdays = types.list(types.weekday, "days of the week")

--- A date: "2027-03-01".
types.date = { says = "a date", examples = { '"2027-03-01"' } }
function types.date.read(v, slot)
  if type(v) ~= "string" then return wrong_type(slot, types.date, v) end
  return clock.date(v) or refuse_form(slot, "date", "date", v, 'write year-month-day: "2027-03-01"')
end

--- A date and a time of day: "2027-03-01 18:00".
types.instant = { says = "a date and time", examples = { '"2027-03-01 18:00"' } }
function types.instant.read(v, slot)
  if type(v) ~= "string" then return wrong_type(slot, types.instant, v) end
  local example = clock.date(v) and ('add the time of day: "%s 18:00"'):format(v)
    or 'write year-month-day and a time: "2027-03-01 18:00"'
  return clock.instant(v) or refuse_form(slot, "instant", "date", v, example)
end

return types
