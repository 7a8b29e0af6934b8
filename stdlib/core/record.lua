--- Records: what a script wrote in { ... }, and its reading against a list of fields.
--
-- A field is { name, type, says = "...", required = true, default = ..., basis = "..." }. A record that was read
-- has values[name], at[name] (place of a value that was written), place (of the whole), and assumed[name], the
-- basis of the default that stands where nothing was written.
local edit = require "native.edit"
local finding = require "core.finding"
local object = require "core.object"
local place = require "native.place"
local value = require "core.value"
local what_if = require "core.what_if"

local record = {}

local ENDS = { between = { "low", "high" }, at_least = { "low" }, at_most = { "high" },
  about = { "low", "likely", "high" }, param = { "name", "default", "allowed" } }

local function refuse_keys(t, at, count)
  for key in pairs(t) do
    if type(key) ~= "string" and (math.type(key) ~= "integer" or key < 1 or key > count) then
      finding.error { code = "field", at = at, message = ("`%s` is not a field name"):format(tostring(key)),
        help = "fields have names; steps and parts stand in a row without gaps" }
    end
  end
end

--- Takes a script's table apart, with places: { fields = { name -> { value, at, key_at } }, items = { { value, at }
-- } }.
function record.raw(t, at)
  local items, fields, positions = {}, {}, 0
  for i, item in ipairs(t) do items[i] = { value = item, at = place.of(t, i) } end
  for key, v in next, t do -- in any order: each goes to a place of its own
    if type(key) == "string" then
      fields[key] = { value = v, at = place.of(t, key), key_at = place.key(t, key) }
      local data = object.data(v)
      if data and ENDS[data.word] then record.note_places(data, t, key) end
    else
      positions = positions + 1
    end
  end
  if positions > #items then refuse_keys(t, at, #items) end
  return { fields = fields, items = items, at = at }
end

--- A window made in place, as in `dwell = between("25 min", "45 min")`, learns where each of its ends stands.
function record.note_places(window, t, key)
  if window.places then return end
  local places = {}
  for n, which in ipairs(ENDS[window.word] or {}) do places[which] = place.argument(t, key, n) end
  window.places = places
end

--- A written table over the ones it was tailored from: what the later one does not say is kept.
function record.overlaid(t, written)
  local raw = record.raw(t, written.at)
  local under = written.under
  if not under then return raw end
  local below = record.overlaid(under.value, under)
  for key, field in pairs(raw.fields) do below.fields[key] = field end
  return below
end

local function names_of(fields)
  local names = {}
  for i, field in ipairs(fields) do names[i] = field[1] end
  return names
end

-- What a list of fields comes to, worked out once: fields by name, the required ones, and the defaults, which read
-- the same everywhere: their values stand behind those of every record through a metatable, and all share their
-- bases.
local function prepare(fields)
  if fields.by_name then return fields end
  local defaults = {}
  fields.by_name, fields.needed, fields.bases = {}, {}, {}
  for _, field in ipairs(fields) do
    local name = field[1]
    fields.by_name[name] = field
    if field.required then fields.needed[#fields.needed + 1] = field end
    if field.default ~= nil then
      defaults[name] = field[2].read(field.default, { at = 0, field = name, owner = "a default" })
      fields.bases[name] = field.basis or "this project's own choice"
    end
  end
  fields.behind_values = { __index = defaults }
  return fields
end

-- The field that the trade calls otherwise.
local function synonym_of(name, fields)
  for _, meant in ipairs(require("core.synonyms").fields[name] or {}) do
    if fields.by_name[meant] then return meant end
  end
  return nil
end

local function unknown_field(name, written, fields, context, raw)
  local names = names_of(fields)
  local at = written.key_at ~= 0 and written.key_at or written.at or context.at
  local meant = finding.near(name, names)
  local fix, safe = finding.respelling(at, name, names)
  local synonym = not meant and synonym_of(name, fields)
  if synonym and not raw.fields[synonym] then fix = finding.renamed(at, name, synonym) end
  finding.error {
    code = "field", at = at, fix = fix, safe = safe and not raw.fields[meant],
    message = ("`%s` is not a field of %s"):format(name, context.owner),
    help = synonym and ("it is called `%s` here: %s"):format(synonym, fields.by_name[synonym].says)
      or finding.did_you_mean(name, names) or "its fields are " .. finding.choices(names),
  }
  return meant or synonym
end

-- context.meant(context, name) answers what the field was probably to be, and whether that is certain.
local function missing_field(field, context)
  local name, text, safe, fix_at, fix = field[1], nil, nil, nil, nil
  if context.meant then text, safe = context.meant(context, name) end
  if text and context.table_at then fix_at, fix = edit.field(context.table_at, name .. " = " .. text) end
  finding.error {
    code = "missing", at = context.at, fix = fix, fix_at = fix_at, safe = safe,
    message = ("%s needs `%s`: %s"):format(context.owner, name, field.says),
    help = ("add %s%s = %s"):format(safe and "" or "for instance ", name,
      text or field.example or field[2].examples[1]),
  }
end

-- A parameter stands for its setting, or for its default.
local function resolve(data, slot, context, kind)
  local instead = what_if.parameter(data.name, kind)
  local setting = context.settings and context.settings[data.name]
  context.parameters[data.name] = data
  data.used = true
  if setting then setting.used = true end
  if instead ~= nil then return instead, slot end
  if setting then
    return setting.value, setmetatable({ at = setting.at }, { __index = slot })
  end
  local at = data.places and data.places.default or 0
  return data.default, setmetatable({ at = at ~= 0 and at or slot.at }, { __index = slot })
end

local function read_estimate(data, field, slot)
  local kind = field[2]
  if not kind.uncertain then
    finding.error { code = "type", at = slot.at,
      message = ("`%s` of %s cannot be an estimate: it needs %s"):format(slot.field, slot.owner, kind.says) }
    return nil
  end
  local read = {}
  for _, which in ipairs { "low", "likely", "high" } do
    local at = data.places and data.places[which] or 0
    read[which] = kind.read(data[which], setmetatable({ at = at ~= 0 and at or slot.at }, { __index = slot }))
    if read[which] == nil then return nil end
  end
  if read.low > read.likely or read.likely > read.high then
    finding.error { code = "range", at = slot.at,
      message = ("`%s` of %s: an estimate goes from low over likely to high, got %s, %s, %s"):format(slot.field,
        slot.owner, read.low, read.likely, read.high) }
    return nil
  end
  return read
end

local function in_allowed(data, read, slot, field)
  local allowed = data.allowed and object.data(data.allowed, value.window)
  if not allowed or read == nil or field[2].window then return end
  local at = data.places and data.places.allowed or 0
  local window = require("core.types").window(field[2]).read(data.allowed,
    setmetatable({ at = at ~= 0 and at or slot.at }, { __index = slot }))
  if window and ((window.low and read < window.low) or (window.high and read > window.high)) then
    finding.error { code = "range", at = slot.at,
      message = ("parameter `%s` must lie in %s to %s, got %s"):format(data.name, tostring(window.low or "any"),
        tostring(window.high or "any"), tostring(read)) }
  end
end

-- What an object stands for: a parameter for its setting or default, an estimate for three values, what failed for
-- nothing. Answers the value read and where it stands.
local function read_object(v, data, field, slot, context)
  local parameter
  if data.class == value.parameter then
    parameter = data
    v, slot = resolve(data, slot, context, field[2])
    data = object.data(v)
  end
  local class = data and data.class
  if v == nil or class == value.unknown then return nil, slot end
  if class == value.estimate then return read_estimate(data, field, slot), slot end
  local read = field[2].read(v, slot)
  if parameter then in_allowed(parameter, read, slot, field) end
  return read, slot
end

local function types_path(paths, name) return require("core.types").path_of(paths, name) end

local function read_written(result, field, written, context)
  local name, v, read = field[1], written.value, nil
  local slot = { at = written.at ~= 0 and written.at or context.at, field = name, owner = context.owner,
    metric = context.metric, currency = context.currency, example = field.example or field.default }
  if written.under then slot.under = written.under end
  if context.path then slot.path, slot.given = types_path(context.path, name), written.given end
  local data = object.data(v)
  if data then read, slot = read_object(v, data, field, slot, context) else read = field[2].read(v, slot) end
  result.values[name], result.at[name] = read, slot.at
end

-- The record with what was given for this run over what is written.
local function with_what_if(raw, fields, context)
  local instead = what_if.fields(context.path, fields, raw)
  if not instead then return raw end
  local all = setmetatable({}, { __index = raw })
  all.fields = {}
  for name, written in next, raw.fields do all.fields[name] = written end
  for name, field in next, instead do
    local written = raw.fields[name]
    all.fields[name] = { value = field.value, given = field.given, at = written and written.at or 0,
      key_at = written and written.key_at or 0 }
  end
  return all
end

--- Reads a raw record. context = { owner = "hone", at = place, metric =, currency =, settings = }. Every fault is
-- reported; what is sound is read all the same. `result.faults` tells whether anything was refused. A table_at in
-- the context is where its { ... } stands, for fixes that put a field in.
function record.read(raw, fields, context)
  context.parameters = context.parameters or {}
  local before = finding.errors()
  prepare(fields)
  context.path = context.path or what_if.paths_of(context.owner)
  raw = with_what_if(raw, fields, context)
  local result = { values = setmetatable({}, fields.behind_values), assumed = fields.bases, at = {}, place = context.at,
    parameters = context.parameters }
  local misspelt = {}
  for name, written in next, raw.fields do -- in any order: findings are sorted by place
    local field = fields.by_name[name]
    if field then read_written(result, field, written, context)
    else misspelt[unknown_field(name, written, fields, context, raw) or ""] = true end
  end
  for _, field in ipairs(fields.needed) do
    if not raw.fields[field[1]] and not misspelt[field[1]] then missing_field(field, context) end
  end
  result.faults = finding.errors() > before
  return result
end

return record
