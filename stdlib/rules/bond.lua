--- Tools that suit the slab and the water.
local abrasive = require "native.abrasive"
local chain = require "core.chain"
local mending = require "core.mending"

-- "soft to extra soft" names both.
local function allows(words, matrix)
  for word in (words .. " to "):gmatch("(.-) to ") do
    if word:gsub(",.*$", "") == matrix then return true end
  end
  return false
end

local function check_matrix(step, report, _, job)
  local matrix = chain.get(step, "matrix")
  if not matrix or not job then return end
  local mohs, at = chain.inner(job, "slab", "hardness")
  if not mohs then return end
  local slab, words = abrasive.matrix(mohs)
  if words and not allows(words, matrix) then
    report { field = "matrix", message = ("a %s bond on a %s slab (Mohs %g), which wants %s"):format(matrix, slab,
      mohs, words),
      labels = { { at = at, text = "the slab" } } }
  end
end

local function check_both(recipe, report)
  local seen = {}
  for _, entry in ipairs(chain.tools(recipe)) do
    local key = ("%s %g"):format(entry.tool.bond, entry.tool.grit)
    local wet = chain.is_wet(entry.step)
    if seen[key] and seen[key].wet ~= wet then
      report { on = entry.step, field = "wet", message = ("%s runs wet in one step and dry in another"):format(key),
        labels = { { on = seen[key].step, field = "wet", text = "the other step" } } }
    end
    seen[key] = seen[key] or { wet = wet, step = entry.step }
  end
end

local function dries(recipe, i)
  for k = i - 1, 1, -1 do
    local step = recipe.steps[k]
    if chain.rest_min(step) > 0 or (step.word == "clean" and chain.get(step, "with") == "vacuum") then
      return true end
    if chain.is_wet(step) or (step.word == "clean" and chain.get(step, "with") ~= "vacuum") then
      return false, k end
    if chain.ABRASIVE[step.word] then return true end
  end
  return true
end

local function check_damp(step, report, recipe, i)
  if chain.is_wet(step) then return end
  local dry, k = dries(recipe, i)
  if not dry then
    local wet, cleaned = recipe.steps[k], mending.cleaned(recipe, k)
    report { on = step, message = ("%s runs dry on the wet floor that %s leaves"):format(step.name, wet.name),
      fix = (cleaned ~= wet or wet.word == "clean") and mending.field(recipe, cleaned, "dry", '"1 h"'),
      labels = { { on = wet, text = "leaves it wet" } } }
  end
end

return {
  {
    id = "bond-matrix", level = "warning", scope = "step", words = chain.ABRASIVE, in_job = true,
    says = "a soft bond for a hard slab, a hard bond for a soft one",
    basis = "four suppliers' guides agree; the Mohs bands are common practice", status = "confirmed",
    help = "change the bond: too hard a bond glazes and skates, too soft a one wears away",
    bad = [[
      slab = { hardness = 7 },
      area "hall" { recipe = recipe "r" { grind "40" { grit = 40, bond = "metal", matrix = "hard", passes = 3 } },
        length = "20 ft", width = "20 ft" },
    ]],
    good = [[
      slab = { hardness = 7 },
      area "hall" { recipe = recipe "r" { grind "40" { grit = 40, bond = "metal", matrix = "soft", passes = 3 } },
        length = "20 ft", width = "20 ft" },
    ]],
    check = check_matrix,
  },
  {
    id = "wet-and-dry", level = "warning", scope = "recipe",
    says = "a tool runs either wet or dry in one recipe: dried slurry in it scratches",
    basis = "keep sets apart", status = "common practice",
    help = "run both steps the same way, or write the sets apart",
    bad = [[
      hone "100" { grit = 100, bond = "transitional", passes = 6, wet = true, care = "rinse" },
      clean "wash" { with = "water", within = "8 min", dry = "1 h" },
      patch "spalls" { with = "polymer repair", share = "1 %", depth = "1/4 in", dry = "1 h" },
      hone "flush" { grit = 100, bond = "transitional", passes = 2 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "transitional", passes = 6 },
      patch "spalls" { with = "polymer repair", share = "1 %", depth = "1/4 in", dry = "1 h" },
      hone "flush" { grit = 120, bond = "transitional", passes = 2 },
    ]],
    check = check_both,
  },
  {
    id = "dry-on-wet", level = "warning", scope = "recipe",
    says = "a dry abrasive starts on a floor that has had time to dry: damp dust is paste in the tools and the "
      .. "vacuum",
    basis = "dry work wants a dry floor", status = "common practice",
    help = 'give the wash before it dry = "1 h", or put a wait between them',
    bad = [[
      hone "100" { grit = 100, bond = "transitional", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min" },
      hone "200" { grit = 200, bond = "transitional", passes = 8 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "transitional", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min", dry = "1 h" },
      hone "200" { grit = 200, bond = "transitional", passes = 8 },
    ]],
    check = chain.each(chain.ABRASIVE, check_damp),
  },
  {
    id = "fibre-wet", level = "warning", scope = "step", words = chain.ABRASIVE,
    says = "fibre pads and burnishing run dry",
    basis = "impregnated pads work by heat and speed", status = "common practice",
    help = "take `wet` out, or use resin tools",
    bad = [[
      burnish "finish" { grit = 3000, wet = true },
      collect "slurry" { within = "8 min" },
    ]],
    good = [[
      burnish "finish" { grit = 3000 },
    ]],
    check = function(step, report)
      if chain.is_wet(step) and chain.get(step, "bond") == "fibre" then
        report { field = "wet", message = ("%s runs a fibre pad wet"):format(step.name) }
      end
    end,
  },
}
