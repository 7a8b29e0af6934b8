--- What all types of fields share (core.types, core.figures): how they say that a value does not fit its slot.
--
-- A slot is where a value was written: at (place of the value), owner ("hone"), field ("overlap"), metric,
-- currency.
local finding = require "core.finding"
local object = require "core.object"
local value = require "core.value"

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

-- A type whose examples are made when they are asked for: sound documents never do.
local function with_examples(self, make)
  return setmetatable(self, { __index = function(_, key)
    if key ~= "examples" then return nil end
    self.examples = make()
    return self.examples
  end })
end

return {
  article = article,
  as_written = as_written,
  assignment = assignment,
  label = label,
  note_of = note_of,
  refuse = refuse,
  with_examples = with_examples,
  wrong_type = wrong_type,
}
