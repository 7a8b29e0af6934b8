--- Figures that nobody means: overlaps, passes, times and joints far from what the trade uses.
local abrasive = require "native.abrasive"
local chain = require "core.chain"
local mending = require "core.mending"
local chemistry = require "native.chemistry"

local OVERLAP_IN = { 1, 11 } -- a third of the largest usual head, 32 in
local WET_PASSES, MANY = 3, 3
local WITHIN_MIN, WASH_DRY_MIN, COATS = 3, 20, 3
local SPREAD = { densify = true, dye = true, stain = true, guard = true, grout = true }
local RESTS = { collect = true, clean = true, densify = true, dye = true, stain = true, guard = true, grout = true,
  fill = true, patch = true }
local DWELL_MIN = { 10, 120 }

local function check_overlap(step, report)
  local overlap = chain.number(step, "overlap", "in")
  if overlap and (overlap < OVERLAP_IN[1] or overlap > OVERLAP_IN[2]) then
    report { field = "overlap", message = ("an overlap of %.2g in; %g to %g in is usual"):format(overlap,
      OVERLAP_IN[1], OVERLAP_IN[2]) }
  end
end

local function check_few(step, report)
  local passes = chain.is_wet(step) and chain.get(step, "bond") == "resin" and chain.get(step, "passes")
  if passes and passes < WET_PASSES then
    report { field = "passes", message = ("%s makes %g wet %s with resin; %d are the least"):format(step.name,
      passes,
      passes == 1 and "pass" or "passes", WET_PASSES) }
  end
end

local HARDEST_MOHS = 7 -- what a recipe is held to that does not say which slabs it suits

local function check_many(recipe, report)
  local suits, tools = chain.inner(recipe, "suits", "hardness"), chain.tools(recipe)
  local mohs = chain.is_whole(recipe) and (suits and suits.high or HARDEST_MOHS)
  for i = 2, mohs and #tools or 1 do
    local entry = tools[i]
    local planned, needed = chain.get(entry.step, "passes"), abrasive.passes(tools[i - 1].tool, entry.tool, mohs)
    if planned and needed and planned > needed * MANY and planned > needed + 6 then
      report { on = entry.step, field = "passes",
        message = ("%s plans %g passes; %d clear the scratch of %s on a slab of Mohs %g"):format(
          entry.step.name, planned, needed, tools[i - 1].step.name, mohs) }
    end
  end
end

local function check_pads(step, report)
  local passes = chain.get(step, "bond") == "fibre" and chain.get(step, "passes")
  if passes and passes > 6 then
    report { field = "passes",
      message = ("%g passes with a fibre pad; it has done its work after a few"):format(passes) }
  end
end

local function check_within(step, report, recipe)
  local within = chain.number(step, "within", "min")
  if within and within < WITHIN_MIN then
    report { field = "within", fix = mending.field(recipe, step, "within", '"8 min"'),
      message = ("nobody starts %s within %.2g min"):format(step.name, within) }
  end
end

local function check_dry(step, report, recipe)
  local dry = chain.get(step, "with") ~= "vacuum" and chain.number(step, "dry", "min")
  if dry and dry < WASH_DRY_MIN then
    report { field = "dry", fix = mending.field(recipe, step, "dry", '"1 h"'),
      message = ("a washed floor does not dry in %.2g min"):format(dry) }
  end
end

local function check_dwell(step, report)
  local dwell = chain.get(step, "dwell")
  for _, limit in ipairs(dwell and { dwell.low or false, dwell.high or false } or {}) do
    local minutes = limit and limit:to("min")
    if minutes and (minutes < DWELL_MIN[1] or minutes > DWELL_MIN[2]) then
      report { field = "dwell",
        message = ("a densifier that dwells for %g min; %g to %g min is usual"):format(minutes, DWELL_MIN[1],
        DWELL_MIN[2]) }
      return
    end
  end
end

local function check_coats(step, report)
  local coats = chain.get(step, "coats")
  if coats and coats > COATS then
    report { field = "coats", message = ("%g coats of %s; more than %d stay on top"):format(coats, chain.get(step,
      "with") or step.name, COATS) }
  end
end

local function check_joint(step, report)
  local width, depth = chain.number(step, "joint_width", "in"), chain.number(step, "joint_depth", "in")
  if not width or not depth then return end
  if width > 1 or width < 1 / 16 then
    report { field = "joint_width",
      message = ("a joint of %.2g in; 1/16 to 1 in is usual for a filler"):format(width) }
  elseif depth < width or depth < 0.25 or depth > 4 then
    report { field = "joint_depth",
      message = ("a joint filled %.2g in deep and %.2g in wide; at least as deep as wide, 1/4 to 4 in"):format(
        depth, width) }
  end
end

local LONG_MIN = { collect = 480, clean = 480, patch = 1440, fill = 1440, grout = 1440 }
local LONG_TIMES = 4 -- as long as the usual most of a material

local function longest(step)
  local with = chain.get(step, "with") or ""
  local row = chemistry.find(with == "stain guard" and "guard" or with)
  return row and row.dry_high > 0 and row.dry_high * LONG_TIMES or LONG_MIN[step.word]
end

local function check_long(step, report)
  local dry, most = chain.number(step, "dry", "min"), longest(step)
  if dry and most and dry > most then
    report { field = "dry",
      message = ("%s dries for %.4g h; past %g h it is a wait"):format(step.name, dry / 60, most / 60) }
  end
end

local FIRST_PASSES = 20

local function check_first(recipe, report)
  local first = chain.tools(recipe)[1]
  local passes = first and chain.get(first.step, "passes")
  if passes and passes > FIRST_PASSES then
    report { on = first.step, field = "passes",
      message = ("%s opens the floor with %g passes; about 10 are usual"):format(first.step.name, passes) }
  end
end

local READINGS_PER_SQFT, READINGS_LEAST = 1 / 100, 20

local function check_readings(step, report, recipe)
  local density, least = chain.number(step, "readings", "each/sqft"), chain.number(step, "least", "")
  if density and density > READINGS_PER_SQFT * 1.01 then
    report { field = "readings", fix = mending.field(recipe, step, "readings", '"1 per 500 sqft"'),
      message = ("%s reads once in %.0f sqft; once in 100 tells all there is to know"):format(step.name, 1 / density) }
  elseif least and least > READINGS_LEAST then
    report { field = "least",
      message = ("%s takes %d readings on the smallest floor; 20 are plenty"):format(step.name, least) }
  end
end

local SUITS = { -- field, unit, the least and most that a window's end means
  { "humidity", "%", 50, 100 }, { "strength", "psi", 2000, 12000 }, { "age", "d", 7, 3650 },
}

local function check_suits(recipe, report)
  for _, row in ipairs(SUITS) do
    local window, at = chain.inner(recipe, "suits", row[1])
    for _, limit in ipairs(window and { window.low or false, window.high or false } or {}) do
      local figure = limit and limit:to(row[2])
      if figure and (figure < row[3] or figure > row[4]) then
        report { at = at,
          message = ("%s suits slabs by a %s of %s; %g to %g %s is what such limits are"):format(
            recipe.name, row[1],
          limit, row[3], row[4], row[2]) }
        break
      end
    end
  end
end

return {
  {
    id = "overlap-band", level = "warning", scope = "step", words = chain.ABRASIVE,
    says = "lanes overlap by 1 to 11 in",
    basis = "about 2 in on small heads, up to a third of a large one", status = "common practice",
    help = "check the figure and its unit",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, overlap = "2 ft" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, overlap = "3 in" },
    ]],
    check = check_overlap,
  },
  {
    id = "wet-passes", level = "warning", scope = "step", words = chain.ABRASIVE,
    says = "a wet resin step makes three passes at least",
    basis = "about 10 slow passes over the same ground, half in each direction", status = "common practice",
    help = "plan more passes",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 1, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min" },
    ]],
    check = check_few,
  },
  {
    id = "passes-many", level = "warning", scope = "recipe",
    says = "no step plans more than three times the passes that clear the last scratch on the hardest slab that the "
      .. "recipe suits, else on one of Mohs 7",
    basis = "removal by Preston's relation with this project's reference shares; a model",
    status = "common practice",
    help = "step more coarsely, or check the figure",
    bad = [[
      suits = { hardness = between(3, 5) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 50 },
    ]],
    good = [[
      suits = { hardness = between(3, 5) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 8 },
    ]],
    check = check_many,
  },
  {
    id = "pad-passes", level = "warning", scope = "step", words = chain.ABRASIVE,
    says = "a fibre pad or burnisher makes six passes at most",
    basis = "heat and speed do the work, and more heat burns the floor", status = "common practice",
    help = "check the figure",
    bad = [[
      burnish "shine" { grit = 3000, passes = 20 },
    ]],
    good = [[
      burnish "shine" { grit = 3000, passes = 2 },
    ]],
    check = check_pads,
  },
  {
    id = "within-short", level = "warning", scope = "step",
    says = "`within` leaves people three minutes to start",
    basis = "tools are put down and others taken up", status = "common practice",
    help = 'say within = "8 min"',
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "1 min" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min" },
    ]],
    check = check_within,
  },
  {
    id = "wash-dry", level = "warning", scope = "step", words = { clean = true },
    says = "a washed floor dries for twenty minutes at least, where a drying time is given",
    basis = "a scrubbed floor is wet to the eye for so long", status = "common practice",
    help = "give it an hour, or measure",
    bad = [[
      clean "wash" { with = "water", dry = "5 min" },
    ]],
    good = [[
      clean "wash" { with = "water", dry = "1 h" },
    ]],
    check = check_dry,
  },
  {
    id = "densifier-band", level = "warning", scope = "step", words = { densify = true },
    says = "a densifier dwells for 10 to 120 minutes",
    basis = "15 to 60 min by chemistry, with room for the product", status = "common practice",
    help = "check the figure and its unit",
    bad = [[
      clean "wash" { with = "water", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dwell = "45 h", keep = "wet",
        dry = "1 h" },
    ]],
    good = [[
      clean "wash" { with = "water", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dwell = "45 min", keep = "wet",
        dry = "1 h" },
    ]],
    check = check_dwell,
  },
  {
    id = "coats-many", level = "warning", scope = "step", words = SPREAD,
    says = "no material goes on in more than three coats",
    basis = "a coat that the floor refuses stays on top", status = "common practice",
    help = "take fewer coats, by an absorption test",
    bad = [[
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", coats = 6, dry = "1 h" },
      wait "set" { time = "2 h" },
    ]],
    good = [[
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", coats = 2, dry = "1 h" },
      wait "set" { time = "2 h" },
    ]],
    check = check_coats,
  },
  {
    id = "joint-shape", level = "warning", scope = "step", words = { fill = true },
    says = "a joint is 1/16 to 1 in wide and filled as deep as it is wide or deeper",
    basis = "saw cuts and their fillers", status = "common practice",
    help = "check the figures and their units",
    bad = [[
      grind "80" { grit = 80, bond = "metal", passes = 2 },
      clean "dust" { with = "vacuum" },
      fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1/16 in", dry = "30 min" },
      hone "120" { grit = 120, bond = "transitional", passes = 4 },
    ]],
    good = [[
      grind "80" { grit = 80, bond = "metal", passes = 2 },
      clean "dust" { with = "vacuum" },
      fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
      hone "120" { grit = 120, bond = "transitional", passes = 4 },
    ]],
    check = check_joint,
  },
  {
    id = "suits-band", level = "warning", scope = "recipe",
    says = "the limits of the slabs that a recipe suits are ones that slabs have",
    basis = "humidity 50-100 %, strength 2,000-12,000 psi, age 7 d to 10 years", status = "common practice",
    help = "check the figure and its unit",
    bad = [[
      suits = { strength = at_least "350 psi" },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    good = [[
      suits = { strength = at_least "3500 psi" },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    check = check_suits,
  },
  {
    id = "dry-long", level = "warning", scope = "step", words = RESTS,
    says = "drying takes no more than eight hours after a wash, a day after a repair, four times the usual most of "
      .. "a material",
    basis = "drying times by chemistry, with room for cold and damp", status = "common practice",
    help = "check the figure and its unit; a floor that is left alone is a wait",
    bad = [[
      clean "wash" { with = "water", dry = "10 h" },
    ]],
    good = [[
      clean "wash" { with = "water", dry = "1 h" },
    ]],
    check = check_long,
  },
  {
    id = "passes-first", level = "warning", scope = "recipe",
    says = "the first abrasive makes twenty passes at most: no scratch before it says how many it needs",
    basis = "about 10 slow passes over the same ground, half in each direction; twice that is let pass",
    status = "common practice",
    help = "check the figure, or start with a coarser tool",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 40 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 8 },
    ]],
    check = check_first,
  },
  {
    id = "readings-many", level = "warning", scope = "step", words = { check = true },
    says = "a floor is not read more than once in 100 sqft, nor a small one at more than twenty places",
    basis = "guide specifications ask for one in 1,000 sqft; ten times that is let pass", status = "common practice",
    help = "check the figure: each reading takes its minutes",
    bad = [[
      check "survey" { measure = "mohs hardness", readings = "1 per 50 sqft", hold = true },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    good = [[
      check "survey" { measure = "mohs hardness", readings = "1 per 500 sqft", hold = true },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    check = check_readings,
  },
}
