--- Passes: enough of them to clear the last scratch, at a speed and overlap that a machine can keep.
local abrasive = require "native.abrasive"
local chain = require "core.chain"
local mending = require "core.mending"

-- Hardness of the slab: the job's, else the middle of what the recipe is made for. nil: nobody knows.
local function hardness(recipe, job)
  local found = job and chain.inner(job, "slab", "hardness")
  if found then return found end
  local suits = chain.inner(recipe, "suits", "hardness")
  return suits and suits.low and suits.high and (suits.low + suits.high) / 2
end

local SHORT = 0.75 -- the model is no better than this

local function check_passes(recipe, report, job)
  local mohs, tools = chain.is_whole(recipe) and hardness(recipe, job), chain.tools(recipe)
  for i = 2, mohs and #tools or 1 do
    local last, entry = tools[i - 1], tools[i]
    local planned = chain.get(entry.step, "passes")
    local needed, scratch, depth = abrasive.passes(last.tool, entry.tool, mohs)
    if needed and planned and planned < needed * SHORT and abrasive.step(last.tool, entry.tool) ~= "skipped" then
      report { on = entry.step, field = "passes",
        fix = mending.field(recipe, entry.step, "passes", ("%d"):format(needed)),
        message = ("%s plans %g passes; %d take out the scratch of %s"):format(entry.step.name, planned, needed,
          last.step.name),
        note = ("a scratch of about %.1f um against %.2f um a pass on a slab of Mohs %g"):format(scratch, depth,
          mohs),
        labels = { { on = last.step, field = "grit", text = "leaves this scratch" } } }
    end
  end
end

local function check_travel(step, report)
  local bond, speed = chain.get(step, "bond"), chain.number(step, "travel", "ft/min")
  if not bond or not speed or step.word == "burnish" then return end
  local low, high = abrasive.walk(bond)
  if low and (speed < low / 1.25 or speed > high * 1.25) then
    report { field = "travel",
      message = ("%g ft/min is outside the usual %g to %g ft/min with %s tools"):format(speed, low, high, bond) }
  end
end

local function machines_for(job, step)
  local list, asked = {}, chain.get(step, "machine")
  for _, machine in ipairs(job.machines) do
    for _, work in ipairs(chain.get(machine, "does") or {}) do
      if work == step.word and (not asked or asked == machine.name) then list[#list + 1] = machine end
    end
  end
  return list
end

local function check_overlap(step, report, _, job)
  local overlap = job and chain.number(step, "overlap", "in")
  if not overlap then return end
  for _, machine in ipairs(machines_for(job, step)) do
    local width = chain.number(machine, "width", "in")
    if width and overlap > width / 2 then
      report { field = "overlap", level = overlap >= width and "error" or "warning",
        message = ("an overlap of %g in is %d %% of the %g in head of %s"):format(overlap,
          math.floor(100 * overlap / width + 0.5),
          width, machine.name),
        labels = { { on = machine, field = "width", text = "the head" } } }
    end
  end
end

local METAL_EDGE, RESIN_EDGE = "hand edge, metal, per step", "hand edge, resin, per step"

-- By word, and by bond where that tells: the trade's name for the work, and the field that holds its rate.
local WORK = {
  grind = { field = "edge_rate", metal = METAL_EDGE },
  hone = { field = "edge_rate", metal = METAL_EDGE, resin = RESIN_EDGE },
  polish = { field = "edge_rate", resin = RESIN_EDGE },
  densify = { field = "rate", any = "densifier spray and work-in" },
  dye = { field = "rate", any = "dye, pump sprayer" },
  guard = { field = "rate", any = "guard, microfibre" },
  fill = { field = "joint_rate", any = "joint clean and fill, crew of two" },
}

local function check_rate(step, report)
  local work = WORK[step.word]
  if not chain.written(step, work.field) then return end
  local name = work.any or work[chain.get(step, "bond")]
  local low, high, unit = nil, nil, nil
  if name then low, high, unit = abrasive.other_work(name) end
  local rate = low and chain.number(step, work.field, unit)
  if rate and (rate < low / 2 or rate > high * 1.5) then
    report { field = work.field, message = ("%g %s is far from the usual %g to %g %s (%s)"):format(rate, unit, low,
      high, unit, name) }
  end
end

return {
  {
    id = "passes-needed", level = "warning", scope = "recipe",
    says = "in a whole chain each abrasive makes the passes that clear the scratch of the one before, or is "
      .. "short of them by less than a quarter; on the slab of the job, else the middle of what the recipe "
      .. "suits",
    basis = "removal by Preston's relation with this project's reference shares; a model, to be settled on a "
      .. "mock-up",
    status = "common practice",
    help = "plan more passes, or step more finely; the model takes no account of the walking speed",
    bad = [[
      suits = { hardness = between(6, 7) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 1 },
    ]],
    good = [[
      suits = { hardness = between(3, 5) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 8 },
    ]],
    check = check_passes,
  },
  {
    id = "travel-band", level = "warning", scope = "step", words = chain.ABRASIVE,
    says = "the walking speed is near the usual one of the tools",
    basis = "10-20 ft/min with metals, 15-40 ft/min with resins", status = "common practice",
    help = "check the figure: a walk is about 15 ft/min with metals, 25 with resins",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, travel = "150 ft/min" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, travel = "20 ft/min" },
    ]],
    check = check_travel,
  },
  {
    id = "overlap-head", level = "warning", scope = "step", words = chain.ABRASIVE, in_job = true,
    says = "lanes overlap by less than half of the head",
    basis = "about 2 in on small heads, up to one third on large ones", status = "common practice",
    help = "lower the overlap, or plan more passes instead",
    bad = [[
      machine "planetary" { does = { "hone", "edges" }, width = "18 in" },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 4,
        overlap = "10 in" } },
        length = "20 ft", width = "20 ft" },
    ]],
    good = [[
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 4,
        overlap = "3 in" } },
        length = "20 ft", width = "20 ft" },
    ]],
    check = check_overlap,
  },
  {
    id = "work-rate", level = "warning", scope = "step", words = WORK,
    says = "a rate of hand work or spreading is near the trade's band",
    basis = "bands of hand work and spreading; half of the low end and one and a half of the high one are let pass",
    status = "common practice",
    help = "check the figure and its unit",
    bad = [[
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", rate = "12000 sqft/h", dry = "1 h" },
      wait "set" { time = "2 h" },
    ]],
    good = [[
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", rate = "2500 sqft/h", dry = "1 h" },
      wait "set" { time = "2 h" },
    ]],
    check = check_rate,
  },
}
