--- Types of fields. A type reads what a script wrote into what the engine uses, or reports what is wrong and
-- answers nil. Each carries `says` (for messages and the manual) and `examples`. Those of figures are in core.figures;
-- what a slot is says core.typing.
local clock = require "core.clock"
local finding = require "core.finding"
local object = require "core.object"
local place = require "native.place"
local typing = require "core.typing"
local value = require "core.value"
local what_if = require "core.what_if"

local label, refuse, wrong_type = typing.label, typing.refuse, typing.wrong_type

local types = {}

for name, figure in pairs(require "core.figures") do types[name] = figure end

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
  local self = typing.with_examples({ says = says or "a list", list = of },
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
    local example = typing.as_written(field.example or field.default ~= nil and field.default or field[2].examples[1])
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
  local self = typing.with_examples({ says = says or "a table of fields", fields = fields },
    function() return { record_example(fields) } end)
  function self.read(v, slot)
    if not object.is_plain(v) then
      if value.is_unknown(v) then return nil end
      local meant = as_only_field(v, fields, slot)
      return refuse(slot, "type", ("%s needs %s, got %s"):format(label(slot), self.says, object.describe(v)),
        "write " .. typing.assignment(slot.field, meant or record_example(fields)), { fix = meant })
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
  local self = { says = typing.article(word == "prices" and "price book" or word), examples = { 'require "..."' }, document = word }
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
