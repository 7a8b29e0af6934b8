--- A material goes onto a clean floor.
local chain = require "core.chain"

local NEEDS = { densify = true, dye = true, stain = true, guard = true }
local CLEANS = { clean = true }
local KEEPS_CLEAN = { check = true, note = true, wait = true }

local function cleaned(recipe, i)
  for k = i - 1, 1, -1 do
    local step = recipe.steps[k]
    if CLEANS[step.word] then return true end
    if step.word == recipe.steps[i].word then return true end -- a coat on its own kind
    if not KEEPS_CLEAN[step.word] then return false, step end
  end
  return false, nil
end

return { {
  id = "clean-before", level = "error", scope = "recipe",
  says = "the floor is washed or vacuumed before a densifier, dye, stain or guard goes on",
  basis = "common practice: residue under a material keeps it out of the slab",
  check = function(recipe, report)
    for i, step in ipairs(recipe.steps) do
      if NEEDS[step.word] then
        local fine, dirty = cleaned(recipe, i)
        if not fine and dirty then
          report { at = chain.at(step, "name"), message = ("%s goes onto a floor that was not cleaned"):format(step.name),
            labels = { { at = chain.at(dirty, "name"), text = "leaves the floor dirty" } },
            help = ('put before it: clean "wash before %s" { with = "water" }'):format(step.name) }
        end
      end
    end
  end,
} }
