--- The words of the language: each is a file in words/, and becomes something a script can call.
local edit = require "native.edit"
local finding = require "core.finding"
local object = require "core.object"
local place = require "native.place"
local record = require "core.record"
local stdlib = require "native.stdlib"
local value = require "core.value"

local words = {}

local definitions = {}

--- All words, sorted.
function words.names()
  if not words.all then words.all = stdlib.names("words") end
  return words.all
end

local function exists(name)
  for _, word in ipairs(words.names()) do if word == name then return true end end
  return false
end

--- The definition of a word, or nil.
function words.definition(name)
  if definitions[name] == nil then
    definitions[name] = exists(name) and require("words." .. name) or false
    if definitions[name] then definitions[name].word = name end
  end
  return definitions[name] or nil
end

--- A word that was given its name and waits for its { ... }.
words.pending = object.class("word without its { ... }", {
  call = function(data, t) return data.finish(t) end,
})

--- A step, a part of a job, or an override: kept as written until a document reads it.
words.step = object.class("step", {
  read = function(data, key)
    local written = data.raw.fields[key]
    if key == "name" then return data.name end
    return written and written.value
  end,
})
words.part = object.class("part")
words.override = object.class("override", {
  call = function(data)
    finding.error { code = "form", at = place.caller(1), message = ("`%s` takes no { ... }"):format(data.word) }
    return value.new_unknown()
  end,
})

words.waiver = object.class("waiver")

local classes = { step = words.step, part = words.part, override = words.override, waiver = words.waiver }

local function wants_table(definition, name, at)
  finding.error {
    code = "form", at = at,
    message = ("`%s` wants a table: %s \"%s\" { ... }"):format(definition.word, definition.word, name),
  }
  return value.new_unknown()
end

local function finish(definition, name, caller, t)
  if value.is_unknown(t) then return t end
  if not object.is_plain(t) then return wants_table(definition, name, caller) end
  local at = place.word(t)
  local data = { word = definition.word, definition = definition, name = name, at = at ~= 0 and at or caller,
    name_at = place.name(t), call_at = place.call(t), table_at = place.of(t) }
  data.raw = record.raw(t, data.at)
  if definition.build then
    words.last_built = data
    return definition.build(data)
  end
  return object.new(classes[definition.kind], data)
end

-- The name goes before the { ... }: the grit, where there is one.
local function needs_name(definition, got, at)
  local what = { code = "form", at = at, help = ("write %s"):format(definition.example),
    message = ("`%s` needs a name first, got %s"):format(definition.word, object.describe(got)) }
  if type(got) == "table" and not object.data(got) and place.of(got) ~= 0 then
    local grit = got.grit
    local name = ('"%s"'):format(type(grit) == "number" and tostring(grit) or definition.word)
    what.at = place.word(got) ~= 0 and place.word(got) or at
    what.fix_at, what.fix = edit.begin(place.of(got)), name .. " "
    what.help = ("put a name before the table: %s %s { ... }"):format(definition.word, name)
  end
  finding.error(what)
end

local NAME_LONGEST = 200 -- bytes

-- A name that says nothing, or too much to stand in a table of the bid, is used up to where it may go.
local function sound_name(definition, name, at)
  local why = name:find("^%s*$") and "is empty" or #name > NAME_LONGEST and ("has %d bytes"):format(#name)
  if not why then return name end
  finding.error {
    code = "range", at = at, message = ("the name of this `%s` %s"):format(definition.word, why),
    help = ("a name has 1 to %d bytes; what there is to say goes into a note"):format(NAME_LONGEST),
  }
  return name:sub(1, NAME_LONGEST)
end

--- What a script gets for a word that takes a name and a table.
local function named(definition)
  return function(name, ...)
    local caller = place.caller(1)
    if value.is_unknown(name) then return name end
    if select("#", ...) > 0 or type(name) ~= "string" then
      needs_name(definition, name, caller)
      return value.new_unknown()
    end
    name = sound_name(definition, name, caller)
    return object.new(words.pending, {
      word = definition.word, name = name, at = caller,
      finish = function(t) return finish(definition, name, caller, t) end,
    })
  end
end

--- The value a script sees under a word's name; nil if there is no such word.
function words.value(name)
  local definition = words.definition(name)
  if not definition then return nil end
  return definition.make or named(definition)
end

return words
