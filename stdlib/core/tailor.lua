--- Tailoring: a recipe made from another by naming what differs.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local recipe = require "core.recipe"
local settings = require "core.settings"
local value = require "core.value"
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

local function place_of(override) return override.name_at ~= 0 and override.name_at or override.at end

-- A step of that name was there, until an override that came before.
local function hits_what_is_gone(override, gone)
  finding.error { code = "override", at = place_of(override),
    message = ("%s hits nothing: step `%s` was %s"):format(override.word, override.name, gone.how),
    labels = { { at = gone.at, text = gone.how .. " here" } }, help = gone.help }
end

local function no_such_step(override, steps)
  if steps.gone[override.name] then return hits_what_is_gone(override, steps.gone[override.name]) end
  local names = names_of(steps)
  finding.error { code = "override", at = place_of(override), fix = finding.respelling(override.name_at, override.name, names),
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

local function copy_of(t)
  local copy = {}
  for key, v in next, t do copy[key] = v end
  return copy
end

-- A step as an override leaves it: its `root` is the step as first written, and `history` lists the overrides.
local function touched(step, override)
  local copy = copy_of(step)
  copy.root = step.root or step
  copy.history = copy_of(step.history or {})
  copy.history[#copy.history + 1] = override
  return copy
end

-- A step with the fields of an override laid over its own. Each field keeps the place where it was written, and
-- knows the one that it `replaced` and the override it stands in (`by`).
local function changed(step, override)
  local copy = touched(step, override)
  copy.raw = { fields = copy_of(step.raw.fields), items = step.raw.items, at = step.raw.at }
  for key, written in pairs(override.raw.fields) do
    local over = copy_of(written)
    over.replaced, over.by = step.raw.fields[key], override
    copy.raw.fields[key] = over
  end
  return copy
end

local function steps_of(override)
  local new = steps_in(override)
  for i, step in ipairs(new) do new[i] = touched(step, override) end
  return new
end

-- Does the step owe its shape to an override of the same tailoring?
local function warn_if_lost(step, override)
  local earlier
  for _, by in ipairs(step.history or {}) do if by.word ~= "rename" then earlier = by end end
  if not earlier or earlier.of ~= override.of then return end
  finding.warning { code = "override-lost", at = place_of(earlier),
    message = ("%s is undone by a later override"):format(document.label(earlier)),
    labels = { { at = place_of(override), text = "undone here" } }, help = "keep one of the two" }
end

local function lose(steps, override, how, help)
  steps.gone[override.name] = { how = how, at = place_of(override), help = help }
end

local verbs = {}

function verbs.before(steps, i, override) insert_steps(steps, i, steps_of(override)) end
function verbs.after(steps, i, override) insert_steps(steps, i + 1, steps_of(override)) end
function verbs.change(steps, i, override) steps[i] = changed(steps[i], override) end

function verbs.drop(steps, i, override)
  warn_if_lost(steps[i], override)
  table.remove(steps, i)
  lose(steps, override, "dropped", "take one of the two out")
end

function verbs.replace(steps, i, override)
  local new = steps_of(override)
  warn_if_lost(steps[i], override)
  table.remove(steps, i)
  insert_steps(steps, i, new)
  lose(steps, override, "replaced", #new > 0 and "in its place stand " .. finding.choices(names_of(new)) or nil)
end

function verbs.rename(steps, i, override)
  local copy = touched(steps[i], override)
  copy.name, copy.name_at = override.to, override.to_at
  steps[i] = copy
  lose(steps, override, "renamed", ("it is called `%s` now"):format(override.to))
end

local function apply(steps, override)
  local i = index_of(steps, override.name)
  if not i then return no_such_step(override, steps) end
  verbs[override.word](steps, i, override)
end

--- A written table laid over another: what the later one does not say is kept. Anything else replaces.
function tailor.overlay(under, over)
  local plain = function(w) return w and object.is_plain(w.value) and #w.value == 0 end
  local both = plain(under) and plain(over)
  return { value = over.value, at = over.at, key_at = over.key_at, by = over.by, under = both and under or nil,
    replaced = not both and under or nil }
end

-- The parent's head with the fields of the tailoring over it; `finish` and `suits` are laid over field by field.
local function merged_head(parent, data)
  local fields = copy_of(parent.raw.fields)
  for key, written in pairs(data.raw.fields) do
    local own = copy_of(written)
    own.by = data
    if key ~= "set" then fields[key] = tailor.overlay(fields[key], own) end
  end
  return { fields = fields, items = data.raw.items, at = data.raw.at }
end

local function own_settings(data)
  local written = data.raw.fields.set
  local own = settings.read(written)
  if written and not own and not value.is_unknown(written.value) then
    finding.error { code = "type", at = written.at,
      message = ("`set` of %s needs a table of parameters, got %s"):format(document.label(data), object.describe(written.value)),
      help = 'write set = { ["opening passes"] = 8 }' }
  end
  for _, setting in next, own or {} do setting.by = data end
  return own
end

local function joined(...)
  local all = {}
  for _, list in ipairs { ... } do
    for _, item in ipairs(list) do all[#all + 1] = item end
  end
  return all
end

--- The parent recipe with the overrides of `data` (name, at, raw) applied in order.
function tailor.build(parent, data)
  local steps = copy_of(parent.source_steps)
  steps.gone = copy_of(steps.gone or {})
  local overrides = document.items(data.raw, words.override, document.label(data),
    "before, after, change, replace, drop, rename and waivers")
  for _, override in ipairs(overrides) do
    override.of = data
    apply(steps, override)
  end
  local own = own_settings(data)
  return (recipe.build { name = data.name, name_at = data.name_at, at = data.at, raw = merged_head(parent, data),
    table_at = data.table_at,
    steps = steps, waivers = joined(parent.from.waivers or {}, overrides.waivers or {}), metric = parent.from.metric,
    parent = parent, settings = settings.over(parent.from.settings, own), own_settings = own })
end

return tailor
