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

-- A copy of a step that remembers which override it owes its shape to.
local function shaped(step, override)
  local copy = {}
  for key, v in pairs(step) do copy[key] = v end
  copy.shaped_by = override
  return copy
end

local function insert_steps(steps, at, override, new)
  for i, step in ipairs(new) do table.insert(steps, at + i - 1, shaped(step, override)) end
end

local function lost(earlier, later)
  finding.warning { code = "override-lost", at = earlier.name_at ~= 0 and earlier.name_at or earlier.at,
    message = ("%s is undone by a later override"):format(document.label(earlier)),
    labels = { { at = later.name_at ~= 0 and later.name_at or later.at, text = "undone here" } }, help = "keep one of the two" }
end

-- Does the step owe its shape to an override of the same tailoring?
local function warn_if_lost(step, override)
  local earlier = step.shaped_by
  if earlier and earlier.of == override.of then lost(earlier, override) end
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
  local copy = shaped(step, override)
  copy.raw = { fields = {}, items = step.raw.items, at = step.raw.at }
  for key, written in pairs(step.raw.fields) do copy.raw.fields[key] = written end
  for key, written in pairs(override.raw.fields) do copy.raw.fields[key] = written end
  return copy
end

local verbs = {}

function verbs.before(steps, i, override) insert_steps(steps, i, override, steps_in(override)) end
function verbs.after(steps, i, override) insert_steps(steps, i + 1, override, steps_in(override)) end
function verbs.change(steps, i, override) steps[i] = changed(steps[i], override) end
function verbs.drop(steps, i, override)
  warn_if_lost(steps[i], override)
  table.remove(steps, i)
end

function verbs.replace(steps, i, override)
  warn_if_lost(steps[i], override)
  table.remove(steps, i)
  insert_steps(steps, i, override, steps_in(override))
end

function verbs.rename(steps, i, override)
  local copy = shaped(steps[i], steps[i].shaped_by)
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
  for _, override in ipairs(overrides) do
    override.of = data
    apply(steps, override)
  end
  local waivers = {}
  for _, list in ipairs { parent.from.waivers or {}, overrides.waivers } do
    for _, waiver in ipairs(list) do waivers[#waivers + 1] = waiver end
  end
  return (recipe.build { name = data.name, name_at = data.name_at, at = data.at,
    raw = merged_head(parent, data.raw), steps = steps, waivers = waivers, metric = parent.from.metric, parent = parent })
end

return tailor
