--- Lineage: where a value of a document came from, found by a path such as `densify.spread` or `area.lobby.length`.
--
-- A document is looked at as a tree of nodes. A node has names() (its children, in order), get(name) and, where it
-- is a field, entries() (what there is to say of it, each { text, at }) and text() (its value in words).
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local quantity = require "native.quantity"
local record = require "core.record"
local value = require "core.value"

local lineage = {}

-- ---- values in words

-- As written, and in the other system of units where that is another text.
local function show_quantity(q)
  local written = tostring(q)
  for _, metric in ipairs { true, false } do
    local other = q:show(metric)
    if other ~= written and not other:find("^0 ") and other:gsub("[%d.,]+", "") ~= written:gsub("[%d.,]+", "") then
      return ("%s (%s)"):format(written, other)
    end
  end
  return written
end

local function show_one(v)
  return quantity.is(v) and show_quantity(v) or tostring(v)
end

local function show_window(v)
  if not v.high then return "at least " .. show_one(v.low) end
  if not v.low then return "at most " .. show_one(v.high) end
  local low, high = show_one(v.low), show_one(v.high)
  return low == high and low or low .. " to " .. high
end

local function one_line(text, most)
  text = text:gsub("%s+", " ")
  return #text > most and text:sub(1, most) .. " ..." or text
end

-- What stands at a place, for values that have no shorter form.
local function source_text(at)
  local text = at and at ~= 0 and finding.text(at)
  return text and one_line(text, 60) or "something made by the script"
end

local function show(kind, v, at)
  if v == nil then return nil end
  local plain = type(v) ~= "table" or quantity.is(v)
  if plain then return show_one(v) end
  if kind.uncertain and v.likely then
    return ("about %s, %s to %s"):format(show_one(v.likely), show_one(v.low), show_one(v.high))
  end
  if kind.window then return show_window(v) end
  if kind.document then return ('%s "%s"'):format(v.word, v.name) end
  return source_text(at)
end

-- ---- what there is to say

local function add(entries, at, format, ...)
  entries[#entries + 1] = { at = at ~= 0 and at or nil, text = format:format(...) }
end

-- Who wrote a field or a setting: an override or a tailoring, else nobody but the document itself.
local function author(by)
  if not by then return "" end
  if by.of then return (" by %s of %s"):format(document.label(by), document.label(by.of)) end
  return " by " .. document.label(by)
end

local function setting_entries(entries, setting, first)
  while setting do
    add(entries, setting.at, "%s %s%s", first and "set to" or "instead of", source_text(setting.at), author(setting.by))
    setting, first = setting.replaced, false
  end
end

local function parameter_entries(entries, data, written, set)
  local setting = set and set[data.name]
  setting_entries(entries, setting, true)
  local at = data.places and data.places.default or 0
  add(entries, at ~= 0 and at or written.at, "%s of parameter `%s`%s", setting and "instead of the default" or "the default",
    data.name, author(written.by))
end

local TOUCHED = { before = "brought", after = "brought", replace = "brought", rename = "renamed" }

-- What overrides did to the step that the field is of; a change is told with the field, if it was of this one.
local function step_entries(entries, history)
  for _, by in ipairs(history or {}) do
    if by.word ~= "change" then
      add(entries, by.name_at ~= 0 and by.name_at or by.at, "the step was %s%s", TOUCHED[by.word], author(by))
    end
  end
end

local function written_entries(entries, written, set)
  local first = true
  while written do
    local parameter = type(written.value) == "table" and object.data(written.value, value.parameter)
    if parameter and first then parameter_entries(entries, parameter, written, set)
    else add(entries, written.at, "%s%s%s", first and "written" or "instead of ", first and "" or source_text(written.at),
      author(written.by)) end
    written, first = written.replaced or written.under_field, false
  end
end

-- ---- nodes of fields

local node -- of a field with a value

-- Some fields take one value or a table of fields.
local function is_record(v) return type(v) == "table" and v.values ~= nil end

local function leaf(field, from)
  local name, kind, read = field[1], field[2], from.record
  local written = from.raw and from.raw.fields[name]
  local self = { is_leaf = true, name = name }
  function self.names() return {} end
  function self.get() return nil end
  function self.text() return show(kind, read.values[name], read.at[name] or 0) end
  function self.entries()
    local entries, text = {}, self.text()
    add(entries, 0, "`%s` of %s = %s", name, from.owner, text or written and "not understood" or "not said")
    add(entries, 0, "%s", field.says)
    if written then written_entries(entries, written, from.settings)
    elseif text then add(entries, read.place, "assumed, since nothing is written here: %s", read.assumed[name])
    else add(entries, read.place, "not written here") end
    step_entries(entries, from.history)
    return entries
  end
  return self
end

local function field_names(fields)
  local names = {}
  for i, field in ipairs(fields) do names[i] = field[1] end
  return names
end

-- The fields of a record: from = { record, raw, owner, settings, history }.
local function of_record(fields, from)
  local self = {}
  function self.names() return field_names(fields) end
  function self.get(name)
    for _, field in ipairs(fields) do if field[1] == name then return node(field, from) end end
    return nil
  end
  return self
end

-- The raw fields of a table that may lie over another: each knows the one below it that it hides.
local function layered(written)
  local raw = record.raw(written.value, written.at)
  for _, field in next, raw.fields do field.by = written.by end
  if not written.under then return raw end
  local below = layered(written.under)
  for key, field in next, below.fields do
    if raw.fields[key] then raw.fields[key].under_field = field else raw.fields[key] = field end
  end
  return raw
end

local function of_entry(kind, entry, owner, says)
  local inner = { record = entry.value, owner = ("`%s` of %s"):format(entry.name, owner) }
  if kind.fields and is_record(entry.value) then
    inner.raw = layered { value = entry.written, at = entry.at }
    return of_record(kind.fields, inner)
  end
  return leaf({ entry.name, kind, says = says }, { owner = owner,
    record = { values = { [entry.name] = entry.value }, at = { [entry.name] = entry.at }, assumed = {}, place = entry.at },
    raw = { fields = { [entry.name] = { value = entry.written, at = entry.at } } } })
end

-- A table of names that the user chose.
local function of_map(field, from)
  local kind, self = field[2].map, {}
  local list = from.record.values[field[1]] or {}
  local written = from.raw and from.raw.fields[field[1]]
  function self.names()
    local names = {}
    for i, entry in ipairs(list) do names[i] = entry.name end
    return names
  end
  function self.get(name)
    for _, entry in ipairs(list) do
      if entry.name == name then
        return of_entry(kind, { name = name, value = entry.value, at = entry.at,
          written = written and type(written.value) == "table" and written.value[name] }, field[1] .. " of " .. from.owner, field.says)
      end
    end
    return nil
  end
  return self
end

function node(field, from)
  local kind, v = field[2], from.record.values[field[1]]
  local written = from.raw and from.raw.fields[field[1]]
  if kind.fields and is_record(v) and written then
    return of_record(kind.fields, { record = v, raw = layered(written), owner = field[1] .. " of " .. from.owner,
      settings = from.settings })
  elseif kind.map and not kind.map.list and kind.map.says ~= "a value" then
    return of_map(field, from)
  elseif kind.document and v then
    local whole, own = lineage.of_document(v), leaf(field, from)
    whole.is_leaf, whole.entries, whole.text = true, own.entries, own.text
    whole.is_apart = v.word == "prices" -- a recipe's values are listed with the area's own
    return whole
  end
  return leaf(field, from)
end

-- ---- nodes of documents

-- Nodes by name, in a row.
local function of_list(list, make)
  local self = {}
  function self.names()
    local names = {}
    for i, data in ipairs(list) do names[i] = data.name end
    return names
  end
  function self.get(name)
    for _, data in ipairs(list) do if data.name == name then return make(data) end end
    return nil
  end
  return self
end

local together

-- One node that answers for several: a step may have the name of a field of the recipe.
function together(nodes)
  if #nodes < 2 then return nodes[1] end
  local self = {}
  for _, one in ipairs(nodes) do
    if one.is_leaf and not self.is_leaf then self.is_leaf, self.entries, self.text = true, one.entries, one.text end
  end
  function self.names()
    local names = {}
    for _, one in ipairs(nodes) do for _, name in ipairs(one.names()) do names[#names + 1] = name end end
    return names
  end
  function self.get(name)
    local found = {}
    for _, one in ipairs(nodes) do found[#found + 1] = one.get(name) end
    return together(found)
  end
  return self
end

-- A node under names of its own: { area = node, ... }.
local function named(children, order)
  return { names = function() return order end, get = function(name) return children[name] end }
end

local makers = {}

--- The node of a step of a recipe.
function lineage.of_step(data, step)
  return of_record(step.definition.fields, { record = step.record, raw = step.raw, owner = document.label(step),
    settings = data.from.settings, history = step.history })
end

--- The node of a recipe's own fields; of one table among them, such as "finish", where it is named.
function lineage.of_head(data, name)
  local head = of_record(require("core.recipe").fields, { record = data.record, raw = data.raw,
    owner = document.label(data), settings = data.from.settings })
  return name and head.get(name) or head
end

--- The fields of such a table.
function lineage.head_fields(name)
  for _, field in ipairs(require("core.recipe").fields) do
    if field[1] == name then return field_names(field[2].fields) end
  end
end

function makers.recipe(data)
  local head = lineage.of_head(data)
  local steps = of_list(data.steps, function(step) return lineage.of_step(data, step) end)
  return together { steps, head, named({ steps = steps }, {}) }
end

function makers.prices(data)
  return of_record(require("core.prices").fields, { record = data.record, raw = data.raw, owner = document.label(data) })
end

local function of_part(part)
  local fields = of_record(require("core.words").definition(part.word).fields,
    { record = part.record, raw = part.raw, owner = document.label(part) })
  return part.recipe and together { fields, lineage.of_document(part.recipe) } or fields
end

function makers.job(data)
  local head = of_record(require("core.job").fields, { record = data.record, raw = data.raw, owner = document.label(data) })
  local parts = { area = of_list(data.areas, of_part), crew = of_list(data.crews, of_part),
    machine = of_list(data.machines, of_part) }
  return together { named(parts, { "area", "crew", "machine" }), head }
end

--- The node of a document; one without children for a kind that has no figures.
function lineage.of_document(data)
  local make = makers[data.word]
  return make and make(data) or { names = function() return {} end, get = function() return nil end }
end

-- ---- paths

--- The parts of a path: names between dots; a name that has dots stands in double quotes. nil if it is not a path.
function lineage.parts(path)
  local parts, at = {}, 1
  repeat
    local name, after = path:match('^"([^"]+)"()', at)
    if not name then name, after = path:match('^([^."]+)()', at) end
    if not name or path:find("^[^.]", after) then return nil end
    parts[#parts + 1] = name
    at = after + 1
  until after > #path
  return parts
end

local function as_part(name) return name:find('[."]') and '"' .. name .. '"' or name end

local function unknown(data, parts, i, here)
  local known = {}
  for k = 1, i - 1 do known[k] = as_part(parts[k]) end
  return nil, { part = parts[i] or "", within = table.concat(known, "."), names = here.names(),
    has_figures = data.word == "job" }
end

--- What there is to say of the value at a path: a list of { text, at }; else nil, and { part, within, names } of
-- the part of the path that there is not; `has_figures` is true of a job, whose figures have names too.
function lineage.explain(data, path)
  local parts, here = lineage.parts(path), lineage.of_document(data)
  if not parts then return unknown(data, { path }, 1, here) end
  for i, part in ipairs(parts) do
    local inner = here.get(part)
    if not inner then return unknown(data, parts, i, here) end
    here = inner
  end
  if not here.is_leaf then return unknown(data, parts, #parts + 1, here) end
  return here.entries()
end

local function list_below(here, prefix, out, depth)
  for _, name in ipairs(here.names()) do
    local inner = here.get(name)
    local path = prefix .. as_part(name)
    local text = inner.is_leaf and inner.text()
    if text then out[#out + 1] = ("%s = %s"):format(path, text) end
    if (not inner.is_leaf or inner.is_apart) and depth > 0 then list_below(inner, path .. ".", out, depth - 1) end
  end
  return out
end

--- All paths of a document that lead to a value, with the value: a line each.
function lineage.list(data)
  return table.concat(list_below(lineage.of_document(data), "", {}, 4), "\n") .. "\n"
end

return lineage
