--- Abrasives in a row: each must be able to take out the scratch of the one before.
local abrasive = require "native.abrasive"
local chain = require "core.chain"

local function name(tool) return ("%s %g"):format(tool.bond, tool.grit) end

local REPAIR = { patch = true, fill = true, grout = true }

local MESSAGES = {
  long = "%s to %s is a %.1fx step; the coarser scratch may show through",
  skipped = "%s to %s is a %.1fx step; the coarser scratch will show through",
  back = "%s after %s goes back to a coarser grain (%.1fx)",
}

local function between(last, next)
  local middle = math.floor((last.grit * next.grit) ^ 0.5 / 10 + 0.5) * 10
  return ("put one step between them, for instance near %d"):format(middle)
end

local function check_ratio(last_step, last, step, tool, report)
  local verdict, ratio = abrasive.step(last, tool)
  if not verdict or not MESSAGES[verdict] then return end
  local first, second = name(last), name(tool)
  if verdict == "back" then
    if chain.order(tool) < chain.order(last) then return end -- bond-order tells it
    first, second = second, first
  end
  report { on = step, field = "grit", level = verdict == "long" and "warning" or "error",
    message = MESSAGES[verdict]:format(first, second, ratio),
    labels = { { on = last_step, field = "grit", text = "the abrasive before it" } },
    help = verdict == "back" and "order the abrasives from coarse to fine" or between(last, tool) }
end

local function check_family(last_step, last, step, tool, report)
  if chain.order(tool) >= chain.order(last) then return end
  report { on = step, field = "bond",
    message = ("%s after %s scratches a floor that was finer already"):format(name(tool),
    name(last)), labels = { { on = last_step, field = "bond", text = "the abrasive before it" } } }
end

-- The same tool again after a repair cuts it flush: that is no repeat.
local function is_repaired(recipe, from, to)
  for i = from + 1, to - 1 do if REPAIR[recipe.steps[i].word] then return true end end
  return false
end

local function check_repeat(recipe, report)
  local tools = chain.tools(recipe)
  for i = 2, #tools do
    local last, next = tools[i - 1].tool, tools[i].tool
    local same = last.grit == next.grit and last.bond == next.bond and last.system == next.system
    if same and not is_repaired(recipe, tools[i - 1].index, tools[i].index) then
      report { on = tools[i].step, field = "grit", message = ("%s comes twice in a row"):format(name(next)),
        labels = { { on = tools[i - 1].step, field = "grit", text = "the first time" } } }
    end
  end
end

local FINEST = { metal = 300 } -- soft scratch tools, finer than the usual ones

-- The coarsest and the finest grit that tools of a bond are made in; nil for tools without grit.
local function on_offer(bond)
  local family = abrasive.family(bond)
  if not family or #family.grits == 0 then return nil end
  return family.grits[1], FINEST[bond] or family.grits[#family.grits]
end

return {
  {
    id = "grit-step", level = "error", scope = "recipe",
    says = "each abrasive is at most about twice as fine as the one before; from metal to resin it may step back",
    basis = "about 2x by grain, a warning from 2.5x, a skipped step over 3x", status = "common practice",
    help = "put an abrasive between the two, or order them from coarse to fine",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      polish "800" { grit = 800, bond = "resin", passes = 30 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
    ]],
    check = chain.pairs_check(check_ratio),
  },
  {
    id = "grit-repeat", level = "warning", scope = "recipe",
    says = "the same tool does not come twice in a row: more passes say the same in one step",
    basis = "one step, more passes", status = "common practice",
    help = "raise `passes` of the first and take the second out",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 4 },
      hone "100 again" { grit = 100, bond = "resin", passes = 4 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 8 },
    ]],
    check = check_repeat,
  },
  {
    id = "bond-order", level = "error", scope = "recipe",
    says = "the families come in order: metal, transitional, resin, fibre",
    basis = "each later family takes out the scratch of the one before", status = "common practice",
    help = "put the coarser family first, or use the finer family here",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      grind "120" { grit = 120, bond = "metal", passes = 2 },
    ]],
    good = [[
      grind "80" { grit = 80, bond = "metal", passes = 2 },
      clean "dust" { with = "vacuum" },
      hone "100" { grit = 100, bond = "transitional", passes = 4 },
    ]],
    check = chain.pairs_check(check_family),
  },
  {
    id = "bond-grit", level = "warning", scope = "step", words = chain.ABRASIVE,
    says = "the grit is one that its bond is made in",
    basis = "metal 6-300, transitional 30-200, resin 50-3000, fibre 400-8000", status = "common practice",
    help = "check the number on the tool, and its system",
    bad = [[
      grind "open" { grit = 800, bond = "metal", passes = 2 },
    ]],
    good = [[
      grind "open" { grit = 80, bond = "metal", passes = 2 },
    ]],
    check = function(step, report)
      local tool = chain.tool(step)
      if not tool or tool.system ~= "floor pad" then return end
      local coarsest, finest = on_offer(tool.bond)
      if coarsest and (tool.grit < coarsest * 0.9 or tool.grit > finest * 1.1) then
        report { field = "grit",
          message = ("%s tools come in %g to %g, not %g"):format(tool.bond, coarsest, finest, tool.grit) }
      end
    end,
  },
}
