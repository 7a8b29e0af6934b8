--- Abrasive order: each abrasive must be able to take out the scratch of the one before.
local abrasive = require "native.abrasive"
local chain = require "core.chain"

local function name(tool) return ("%s %g"):format(tool.bond, tool.grit) end

local MESSAGES = {
  long = "%s to %s is a %.1fx step; the coarser scratch may show through",
  skipped = "%s to %s is a %.1fx step; the coarser scratch will show through",
  back = "%s after %s goes back to a coarser grain (%.1fx)",
}

local function between(last, next)
  local middle = math.floor((last.grit * next.grit) ^ 0.5 / 10 + 0.5) * 10
  return ("put one step between them, for instance near %d"):format(middle)
end

local function check_pair(last_step, last, step, tool, report)
  local verdict, ratio = abrasive.step(last, tool)
  if not verdict or not MESSAGES[verdict] then return end
  local first, second = name(last), name(tool)
  if verdict == "back" then first, second = second, first end
  report {
    at = chain.at(step, "grit"), level = verdict == "long" and "warning" or "error",
    message = MESSAGES[verdict]:format(first, second, ratio),
    labels = { { at = chain.at(last_step, "grit"), text = "the abrasive before it" } },
    help = verdict == "back" and "order the abrasives from coarse to fine" or between(last, tool),
  }
end

return { {
  id = "grit-step", level = "error", scope = "recipe",
  says = "each abrasive is at most about twice as fine as the one before; from metal to resin it may step back",
  basis = "common practice: about 2x, a warning from 2.5x, a skipped step over 3x",
  check = function(recipe, report)
    local last_step, last
    for _, step in ipairs(recipe.steps) do
      local tool = step.word ~= "burnish" and chain.tool(step)
      if tool then
        if last then check_pair(last_step, last, step, tool, report) end
        last_step, last = step, tool
      end
    end
  end,
} }
