--- Reading a recipe: its head, its steps, its parameters.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local record = require "core.record"
local settings = require "core.settings"
local types = require "core.types"
local waivers = require "core.waivers"
local words = require "core.words"

local recipe = {}

recipe.EXPOSURES = { "cream", "fine aggregate", "coarse aggregate" }
recipe.APPEARANCES = { "flat", "satin", "polished", "highly polished" }

recipe.fields = {
  { "revision", types.text(), says = "the shop's mark of this version", example = '"4"' },
  { "units", types.choice { "us", "metric" }, says = "how ambiguous units in this file are read" },
  { "finish", types.record {
    { "exposure", types.choice(recipe.EXPOSURES),
      says = "aggregate shown, by the 2017 chart: cream A, fine B, coarse C" },
    { "appearance", types.choice(recipe.APPEARANCES), says = "appearance level 1 flat to 4 highly polished" },
    { "gloss", types.window(types.number(0, 200)), says = "promised gloss at 60 degrees, GU",
      example = "at_least(45)" },
    { "slip", types.choice { "interior dry", "interior wet", "interior wet plus", "exterior wet",
      "oils and greases" },
      says = "use of the floor by the slip standard (ANSI A326.3)" },
  }, says = "what is promised", example = '{ exposure = "cream", appearance = "polished" }' },
  { "suits", types.record {
    { "hardness", types.window(types.number(1, 10)), says = "Mohs hardness of the paste",
      example = "between(3, 6)" },
    { "age", types.window("time"), says = "age of the slab", example = 'at_least "28 d"' },
    { "humidity", types.window("fraction"), says = "relative humidity in the slab", example = 'at_most "80 %"' },
    { "strength", types.window("pressure"), says = "compressive strength", example = 'at_least "3500 psi"' },
    { "flatness", types.window(types.number(1, 150)), says = "floor flatness number FF (ASTM E1155)",
      example = "at_least(35)" },
  }, says = "slabs this recipe is made for", example = "{ hardness = between(3, 6) }" },
  { "rules", types.list(types.document("rule")), says = "rules of the shop on top of the built-in ones" },
  { "note", types.text(), says = "words about the recipe" },
}

-- The bond that all steps of a word say, where they say the same; nil otherwise.
local function usual_bond(steps, word)
  local found
  for _, step in ipairs(steps) do
    local bond = step.word == word and step.raw.fields.bond and step.raw.fields.bond.value
    if type(bond) == "string" and bond:find("^%l+$") then
      if found and found ~= bond then return nil end
      found = bond
    end
  end
  return found
end

-- What a missing field of a step was probably to be: the grit that it is called by, the bond of its like.
local function meant(context, field)
  if field == "grit" then return context.step.name:match("^%d+$") end
  local bond = field == "bond" and usual_bond(context.steps, context.step.word)
  return bond and ('"%s"'):format(bond) or nil
end

local function read_step(data, context)
  local step = { word = data.word, name = data.name, at = data.at, name_at = data.name_at, call_at = data.call_at,
    table_at = data.table_at, raw = data.raw, definition = data.definition,
    root = data.root or data, history = data.history or {} }
  step.record = record.read(data.raw, data.definition.fields, {
    owner = document.label(data), at = data.name_at ~= 0 and data.name_at or data.at,
    metric = context.metric, settings = context.settings, parameters = context.parameters,
    table_at = data.table_at, meant = meant, step = data, steps = context.steps,
  })
  if data.definition.settle then data.definition.settle(step) end
  for _, item in ipairs(data.raw.items) do
    finding.error { code = "form", at = item.at, message = ("%s takes named fields only, got %s"):format(
      document.label(data), object.describe(item.value)), help = "write name = value" }
  end
  return step
end

local function refuse_unused(settings, parameters)
  local names = {}
  for name in pairs(parameters) do names[#names + 1] = name end
  for name, setting in pairs(settings or {}) do
    if not parameters[name] then
      finding.error { code = "parameter", at = setting.key_at or setting.at,
        message = ("the recipe has no parameter `%s`"):format(name),
        help = finding.did_you_mean(name, names) or (#names > 0 and "it has " .. finding.choices(names)
          or "it has no parameters; write param(...) in the recipe") }
    end
  end
end

--- Builds a recipe from { name, name_at, at, raw, steps (step data), metric, parent, settings, own_settings (those
-- of them that must be of parameters it has) }.
function recipe.build(from)
  local context = { metric = from.metric, settings = from.settings, parameters = {}, steps = from.steps }
  local units = from.raw.fields.units
  if units and units.value == "metric" then context.metric = true end
  local owner = ('recipe "%s"'):format(from.name)
  local head = record.read(from.raw, recipe.fields, { owner = owner, at = from.name_at ~= 0 and from.name_at
    or from.at,
    metric = context.metric, settings = from.settings, parameters = context.parameters })
  local data = { word = "recipe", name = from.name, at = from.at, name_at = from.name_at, raw = from.raw,
    record = head, table_at = from.table_at,
    source_steps = from.steps, steps = {}, parameters = context.parameters, parent = from.parent, from = from,
    incomplete = from.steps.incomplete, waivers = waivers.read(from.waivers, context.metric) }
  for i, step in ipairs(from.steps) do
    data.steps[i] = finding.of(document.label(step), read_step, step, context)
  end
  document.refuse_twins(data.steps, "steps")
  if from.own_settings then refuse_unused(from.own_settings, context.parameters) end
  if #data.steps == 0 and not from.steps.incomplete then
    finding.error { code = "empty", at = data.at, message = owner .. " has no steps",
      help = 'add steps: hone "200" { ... },' }
  end
  return object.new(document.class, data), data
end

--- The same recipe with parameters set: own = { name -> { value, at } }, over those it was tailored with.
function recipe.with_settings(data, own)
  local from = {}
  for key, v in next, data.from do from[key] = v end
  from.settings, from.own_settings = settings.over(from.settings, own), own
  local _, set = recipe.build(from)
  return set
end

--- The word's builder: recipe "name" { fields, steps }.
function recipe.from_script(data)
  local steps = document.items(data.raw, words.step, document.label(data), "steps")
  return (recipe.build { name = data.name, name_at = data.name_at, at = data.at, raw = data.raw, steps = steps,
    table_at = data.table_at, waivers = steps.waivers })
end

return recipe
