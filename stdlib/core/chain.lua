--- Looking along a recipe: the neighbours of a step, and shorthand for the fields of steps, parts and documents.
local abrasive = require "native.abrasive"

local chain = {}

chain.ABRASIVE = { grind = true, hone = true, polish = true, burnish = true }
--- Materials that go on the whole floor.
chain.COATS = { densify = true, dye = true, stain = true, guard = true }
--- Words that leave the floor as it is.
chain.STILL = { check = true, note = true, wait = true }

local function likely(value)
  if type(value) == "table" and value.likely ~= nil then return value.likely end
  return value
end

--- The value of a field of a step, part or document, nil if it is missing or faulty. An estimate gives its likely
-- value.
function chain.get(subject, field)
  local value = subject.record.values[field]
  if type(value) == "table" then return likely(value) end
  return value
end

--- The value of a field inside a field, chain.inner(job, "slab", "hardness"), and its place.
function chain.inner(subject, field, inner)
  local read = subject.record.values[field]
  if not read or not read.values then return nil, nil end
  return likely(read.values[inner]), read.at[inner]
end

--- A number or quantity as a plain number in a unit; of a window its lower end. nil if it is not there.
function chain.plain(value, unit)
  if type(value) == "table" then value = value.low end
  if value == nil or type(value) == "number" then return value end
  return value:to(unit)
end

--- A field as a plain number in a unit, nil if it is not there: chain.number(step, "dwell", "min").
function chain.number(subject, field, unit) return chain.plain(chain.get(subject, field), unit) end

--- The place of a field of a step, part or document; of its name if the field was not written.
function chain.at(subject, field)
  local at = field and subject.record.at[field]
  if at and at ~= 0 then return at end
  return subject.name_at ~= 0 and subject.name_at or subject.at
end

--- Was the field written at all, sound or not? A faulty one has its finding already.
function chain.written(subject, field) return subject.raw.fields[field] ~= nil end

local function read_tool(step)
  if not chain.ABRASIVE[step.word] then return nil end
  local grit, bond = chain.get(step, "grit"), chain.get(step, "bond")
  if not grit or not bond then return nil end
  return { grit = grit, bond = bond, system = chain.get(step, "system") }
end

--- A step as a tool for native.abrasive, or nil if it is not one or is not sound.
function chain.tool(step)
  if step.tool == nil then step.tool = read_tool(step) or false end
  return step.tool or nil
end

--- Where a tool's family stands in a job: a later one never goes before an earlier one.
function chain.order(tool) return abrasive.family(tool.bond).order end

--- The abrasive steps that cut, in order, without burnishing: { { step, tool, index } }.
function chain.tools(recipe)
  if recipe.tools then return recipe.tools end
  local list = {}
  for i, step in ipairs(recipe.steps) do
    local tool = step.word ~= "burnish" and chain.tool(step)
    if tool then list[#list + 1] = { step = step, tool = tool, index = i } end
  end
  recipe.tools = list
  return list
end

-- By step: the finest abrasive up to and with it.
local function finest_so_far(recipe)
  local list, finest, tools, n = {}, false, chain.tools(recipe), 1
  for i = 1, #recipe.steps do
    if tools[n] and tools[n].index == i then
      if not finest or tools[n].tool.grit > finest.tool.grit then finest = tools[n] end
      n = n + 1
    end
    list[i] = finest
  end
  return list
end

--- The finest abrasive before the i-th step, nil if there is none.
function chain.finest_before(recipe, i)
  recipe.finest = recipe.finest or finest_so_far(recipe)
  return recipe.finest[i - 1] or nil
end

--- A rule's check on each two abrasives that follow each other: check(last_step, last, step, tool, report, job).
function chain.pairs_check(check)
  return function(recipe, report, job)
    local tools = chain.tools(recipe)
    for i = 2, #tools do
      check(tools[i - 1].step, tools[i - 1].tool, tools[i].step, tools[i].tool, report, job)
    end
  end
end

-- Where the steps of each word stand: word -> { i, ... }.
local function by_word(recipe)
  local index = {}
  for i, step in ipairs(recipe.steps) do
    local list = index[step.word]
    if not list then
      list = {}
      index[step.word] = list
    end
    list[#list + 1] = i
  end
  return index
end

--- Where the steps of a word stand in a recipe: { i, ... }, nil if there is none.
function chain.places(recipe, word)
  recipe.by_word = recipe.by_word or by_word(recipe)
  return recipe.by_word[word]
end

--- A rule's check on the steps of some words: check(step, report, recipe, i, job).
function chain.each(words, check)
  return function(recipe, report, job)
    for word in next, words do -- in any order: findings are sorted by place
      for _, i in ipairs(chain.places(recipe, word) or {}) do check(recipe.steps[i], report, recipe, i, job) end
    end
  end
end

--- The nearest step before (by -1) or after (by 1) the i-th that is none of the words in `past`.
function chain.neighbour(recipe, i, by, past)
  local k = i + by
  while recipe.steps[k] and past[recipe.steps[k].word] do k = k + by end
  return recipe.steps[k], k
end

--- The first step after the i-th for which `wanted` holds, nil if there is none.
function chain.later(recipe, i, wanted)
  for k = i + 1, #recipe.steps do
    if wanted(recipe.steps[k]) then return recipe.steps[k], k end
  end
  return nil
end

--- Does the step run wet?
function chain.is_wet(step) return chain.ABRASIVE[step.word] and chain.get(step, "wet") == true end

--- Minutes that the floor rests after a step before the next begins; 0 where nothing is said.
function chain.rest_min(step)
  return (chain.number(step, "dry", "min") or 0) + (chain.number(step, "time", "min") or 0)
end

--- A promise of the recipe's finish, and its place.
function chain.promise(recipe, field) return chain.inner(recipe, "finish", field) end

--- Does the recipe take a floor from a coarse abrasive on, rather than bring back the shine of a finished one?
function chain.is_whole(recipe)
  local first = chain.tools(recipe)[1]
  return first ~= nil and first.tool.grit <= 200
end

return chain
