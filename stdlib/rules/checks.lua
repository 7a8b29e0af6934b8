--- Readings: a promise is read before the floor is handed over.
local chain = require "core.chain"

return { {
  id = "finish-read", level = "warning", scope = "recipe",
  says = "a recipe that promises a gloss or an appearance ends with readings of it, before any guard",
  basis = "acceptance is judged before a guard or sealer goes on (contractor quality page and trade press)",
  check = function(recipe, report)
    local finish = recipe.record.values.finish
    if not finish or not (finish.values.gloss or finish.values.appearance) then return end
    local guard
    for _, step in ipairs(recipe.steps) do
      if step.word == "guard" and not guard then guard = step end
      local measure = step.word == "check" and chain.get(step, "measure")
      if measure and (measure:find("^gloss") or measure == "image clarity") then
        if guard then
          report { at = chain.at(step, "measure"), message = ("%s reads the finish after the guard"):format(step.name),
            labels = { { at = chain.at(guard, "name"), text = "lifts readings without refining the floor" } },
            help = "read before the guard" }
        end
        return
      end
    end
    report { at = recipe.record.at.finish, message = "a finish is promised and nothing in the recipe reads it",
      help = 'add: check "sheen" { measure = "gloss 60", want = at_least(45), hold = true }' }
  end,
} }
