--- Looking along a recipe: the neighbours of a step, and shorthand for its fields.
local chain = {}

chain.ABRASIVE = { grind = true, hone = true, polish = true, burnish = true }

--- The value of a step's field, nil if it is missing or faulty.
function chain.get(step, field) return step.record.values[field] end

--- The place of a step's field; of the step's name if the field was not written.
function chain.at(step, field)
  local at = step.record.at[field]
  if at and at ~= 0 then return at end
  return step.name_at ~= 0 and step.name_at or step.at
end

--- Was the field written at all, sound or not? A faulty one has its finding already.
function chain.written(step, field) return step.raw.fields[field] ~= nil end

local function read_tool(step)
  if not chain.ABRASIVE[step.word] then return nil end
  local grit, bond = chain.get(step, "grit"), chain.get(step, "bond")
  if type(grit) == "table" then grit = grit.likely end
  if not grit or not bond then return nil end
  return { grit = grit, bond = bond, system = chain.get(step, "system") }
end

--- A step as a tool for native.abrasive, or nil if it is not one or is not sound.
function chain.tool(step)
  if step.tool == nil then step.tool = read_tool(step) or false end
  return step.tool or nil
end

--- The steps after the i-th, until one of the words in `stop`.
function chain.until_word(recipe, i, stop)
  local steps = {}
  for k = i + 1, #recipe.steps do
    if stop[recipe.steps[k].word] then return steps, recipe.steps[k] end
    steps[#steps + 1] = recipe.steps[k]
  end
  return steps, nil
end

return chain
