--- Repairs and grout: after the first cut, before the fine grits, hard before the next tool.
local chain = require "core.chain"
local mending = require "core.mending"

local REPAIR = { patch = true, fill = true, grout = true }
local FLUSH_GRIT = 200
local CURE_MIN = { polyurea = 25, epoxy = 60, ["cement grout"] = 30, ["polymer repair"] = 25 }

local function check_flush(step, report, recipe, i)
  local cut = chain.later(recipe, i, function(later)
    local tool = later.word ~= "burnish" and chain.tool(later)
    return tool and tool.grit <= FLUSH_GRIT
  end)
  if cut then return end
  local finest = chain.finest_before(recipe, i)
  report { on = step, message = ("no abrasive of grit %d or coarser follows %s to cut it flush"):format(FLUSH_GRIT,
    step.name),
    labels = finest and { { on = finest.step, field = "grit", text = "the floor is this fine already" } } }
end

local function check_opened(step, report, recipe, i)
  if chain.is_whole(recipe) and not chain.finest_before(recipe, i) then
    report { on = step, message = ("%s comes before any abrasive has opened the floor"):format(step.name) }
  end
end

local function check_cure(step, report, recipe)
  local least, minutes = CURE_MIN[chain.get(step, "with")],
    chain.number(step, "dry", "min") or chain.number(step, "dwell", "min")
  if least and (minutes or not chain.written(step, "dry")) and (minutes or 0) < least then
    local field = chain.number(step, "dry", "min") and "dry" or chain.written(step, "dwell") and "dwell" or "dry"
    report { on = step, field = minutes and "dry" or nil,
      fix = mending.field(recipe, step, field, ('"%d min"'):format(least)),
      message = minutes and ("%s hardens for %g min; %s takes %d min or more"):format(step.name, minutes,
        chain.get(step, "with"), least)
        or ("%s says no `dry`; %s takes %d min or more to harden"):format(step.name, chain.get(step, "with"), least) }
  end
end

return {
  {
    id = "repair-flush", level = "error", scope = "recipe",
    says = "a patch, joint filler or grout coat is cut flush by a tool of grit 200 or coarser after it",
    basis = "repairs come after the first coarse grind and before the finer grits; hard polymers need about 100 "
      .. "to cut; trade press",
    status = "confirmed",
    help = "move the repair before the 100 or 200 step",
    bad = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
      polish "400" { grit = 400, bond = "resin", passes = 6 },
    ]],
    good = [[
      grind "80" { grit = 80, bond = "metal", passes = 2 },
      clean "dust" { with = "vacuum" },
      fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
      hone "100" { grit = 100, bond = "transitional", passes = 4 },
    ]],
    check = chain.each(REPAIR, check_flush),
  },
  {
    id = "repair-opened", level = "warning", scope = "recipe",
    says = "the floor is opened before it is patched, filled or grouted",
    basis = "after the initial coarse grind; trade press", status = "confirmed",
    help = "move it behind the first grind",
    bad = [[
      fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
      hone "100" { grit = 100, bond = "transitional", passes = 4 },
    ]],
    good = [[
      grind "80" { grit = 80, bond = "metal", passes = 2 },
      clean "dust" { with = "vacuum" },
      fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
      hone "100" { grit = 100, bond = "transitional", passes = 4 },
    ]],
    check = chain.each(REPAIR, check_opened),
  },
  {
    id = "repair-cure", level = "warning", scope = "recipe",
    says = "a repair hardens before the next tool reaches it",
    basis = "two-part polyurea hardens in 25-30 min; trade press. The others are common practice",
    status = "common practice",
    help = 'add dry = "30 min", or what the product asks for',
    bad = [[
      grind "80" { grit = 80, bond = "metal", passes = 2 },
      clean "dust" { with = "vacuum" },
      fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "5 min" },
      hone "100" { grit = 100, bond = "transitional", passes = 4 },
    ]],
    good = [[
      grind "80" { grit = 80, bond = "metal", passes = 2 },
      clean "dust" { with = "vacuum" },
      fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
      hone "100" { grit = 100, bond = "transitional", passes = 4 },
    ]],
    check = chain.each(REPAIR, check_cure),
  },
}
