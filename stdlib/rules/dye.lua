--- Dye and stain: on an open, dry floor.
local chain = require "core.chain"

return {
  {
    id = "dye-closed", level = "error", scope = "recipe",
    says = "a dye or stain goes on before the surface closes: after 100 to 400 resin, commonly 200",
    basis = "common practice: after 100-400 resin, commonly 200",
    check = function(recipe, report)
      local finest
      for _, step in ipairs(recipe.steps) do
        local tool = chain.tool(step)
        if tool and (not finest or tool.grit > finest.grit) then finest = { grit = tool.grit, step = step } end
        if (step.word == "dye" or step.word == "stain") and finest and finest.grit > 400 then
          report { at = chain.at(step, "name"), message = ("%s comes after grit %g: the surface has closed and takes no colour"):format(
            step.name, finest.grit), labels = { { at = chain.at(finest.step, "grit"), text = "already this fine" } },
            help = "put it after the 200 or 400 step" }
        end
      end
    end,
  },
  {
    id = "dye-dry", level = "warning", scope = "recipe",
    says = "the floor is dry before a dye: the step before it gives a drying time or a wait, or cleans with a vacuum",
    basis = "common practice: bone dry and vacuumed",
    check = function(recipe, report)
      for i, step in ipairs(recipe.steps) do
        local before = recipe.steps[i - 1]
        if step.word == "dye" and before then
          local dry = before.word == "wait" or chain.get(before, "dry") or chain.get(before, "with") == "vacuum" or before.word == "dye"
          if not dry then
            report { at = chain.at(step, "name"), message = ("%s follows %s, which gives the floor no time to dry"):format(
              step.name, before.name), help = 'give the step before it dry = "2 h", or put a wait between them' }
          end
        end
      end
    end,
  },
}
