--- Tailoring: a recipe made from another by naming what differs.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local recipe = require "core.recipe"
local words = require "core.words"

local tailor = {}

local function index_of(steps, name)
  for i, step in ipairs(steps) do if step.name == name then return i end end
  return nil
end

local function names_of(steps)
  local names = {}
  for i, step in ipairs(steps) do names[i] = step.name end
  return names
end

local function no_such_step(override, steps)
  local names = names_of(steps)
  finding.error { code = "override", at = override.name_at ~= 0 and override.name_at or override.at,
    message = ("%s hits nothing: no step is called `%s`"):format(override.word, override.name),
    help = finding.did_you_mean(override.name, names) or "the steps are " .. finding.choices(names) }
end

local function insert_steps(steps, at, new)
  for i, step in ipairs(new) do table.insert(steps, at + i - 1, step) end
end

local function steps_in(override)
  for name, written in pairs(override.raw.fields) do
    finding.error { code = "field", at = written.key_at,
      message = ("%s takes steps, not fields (`%s`)"):format(document.label(override), name),
      help = ('fields are changed by: change "%s" { %s = ... }'):format(override.name, name) }
  end
  return document.items(override.raw, words.step, document.label(override), "steps")
end

-- A step with the fields of an override laid over its own; each field keeps the place where it was written.
local function changed(step, override)
  local copy = {}
  for key, v in pairs(step) do copy[key] = v end
  copy.raw = { fields = {}, items = step.raw.items, at = step.raw.at }
  for key, written in pairs(step.raw.fields) do copy.raw.fields[key] = written end
  for key, written in pairs(override.raw.fields) do copy.raw.fields[key] = written end
  copy.changed_by = override
  return copy
end

local verbs = {}

function verbs.before(steps, i, override) insert_steps(steps, i, steps_in(override)) end
function verbs.after(steps, i, override) insert_steps(steps, i + 1, steps_in(override)) end
function verbs.change(steps, i, override) steps[i] = changed(steps[i], override) end
function verbs.drop(steps, i) table.remove(steps, i) end

function verbs.replace(steps, i, override)
  table.remove(steps, i)
  insert_steps(steps, i, steps_in(override))
end

function verbs.rename(steps, i, override)
  local copy = {}
  for key, v in pairs(steps[i]) do copy[key] = v end
  copy.name, copy.name_at = override.to, override.to_at
  steps[i] = copy
end

local function apply(steps, override)
  local i = index_of(steps, override.name)
  if not i then return no_such_step(override, steps) end
  verbs[override.word](steps, i, override)
end

-- The parent's head with the fields of the tailoring over it; `finish` and `suits` are laid over field by field.
local function merged_head(parent, raw)
  local fields = {}
  for key, written in pairs(parent.raw.fields) do fields[key] = written end
  for key, written in pairs(raw.fields) do fields[key] = tailor.overlay(fields[key], written) end
  return { fields = fields, items = raw.items, at = raw.at }
end

--- A written table laid over another: what the later one does not say is kept. Anything else replaces.
function tailor.overlay(under, over)
  local plain = function(w) return w and type(w.value) == "table" and not object.data(w.value) and #w.value == 0 end
  if not plain(under) or not plain(over) then return over end
  return { value = over.value, at = over.at, key_at = over.key_at, under = under }
end

--- The parent recipe with the overrides of `data` (name, at, raw) applied in order.
function tailor.build(parent, data)
  local steps = { incomplete = parent.source_steps.incomplete }
  for i, step in ipairs(parent.source_steps) do steps[i] = step end
  local overrides = document.items(data.raw, words.override, document.label(data),
    "before, after, change, replace, drop, rename and waivers")
  for _, override in ipairs(overrides) do apply(steps, override) end
  local waivers = {}
  for _, list in ipairs { parent.from.waivers or {}, overrides.waivers } do
    for _, waiver in ipairs(list) do waivers[#waivers + 1] = waiver end
  end
  return (recipe.build { name = data.name, name_at = data.name_at, at = data.at,
    raw = merged_head(parent, data.raw), steps = steps, waivers = waivers, metric = parent.from.metric, parent = parent })
end

return tailor
