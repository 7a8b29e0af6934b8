--- Dye and stain: on an open, dry floor, in their order; how long they and a guard take.
local chain = require "core.chain"
local chemistry = require "native.chemistry"
local mending = require "core.mending"

local COLOUR = { dye = true, stain = true }

local function check_closed(step, report, recipe, i)
  local finest = chain.finest_before(recipe, i)
  if finest and finest.tool.grit > 400 then
    report { on = step,
      message = ("%s comes after grit %g: the surface has closed and takes no colour"):format(
        step.name, finest.tool.grit),
      labels = { { on = finest.step, field = "grit", text = "already this fine" } } }
  end
end

local function check_dry(step, report, recipe, i)
  local before = chain.neighbour(recipe, i, -1, { note = true, check = true })
  if not before or chain.rest_min(before) > 0 or chain.get(before, "with") == "vacuum" or COLOUR[before.word] then
    return end
  if chain.ABRASIVE[before.word] and not chain.is_wet(before) then return end
  local rests = before.word == "clean" or before.word == "collect"
  report { on = step, message = ("%s follows %s, which gives the floor no time to dry"):format(step.name,
    before.name), fix = rests and mending.field(recipe, before, "dry", '"2 h"'),
    labels = { { on = before, text = "the step before" } } }
end

local function check_time(step, report, recipe)
  local with = chain.get(step, "with")
  local row = chemistry.find(with == "stain guard" and "guard" or with or "")
  if not row then return end
  local field = row.dwell_low > 0 and "dwell" or "dry"
  local least, minutes = math.max(row.dwell_low, row.dry_low), chain.number(step, field, "min")
  if least > 0 and (not minutes or minutes < least) and (minutes or not chain.written(step, field)) then
    report { on = step, field = chain.written(step, field) and field or nil,
      fix = mending.field(recipe, step, field, ('"%g min"'):format(least)),
      message = minutes and ("%s gives %s `%s` of %g min; it wants %g min or more"):format(step.name,
        chain.get(step, "with"), field, minutes, least)
        or ("%s says no `%s`; %s wants %g min or more"):format(step.name, field, chain.get(step, "with"), least) }
  end
end

local function check_neutral(step, report, recipe, i)
  local row = chemistry.find(chain.get(step, "with") or "")
  if not row or not row.must_be_neutralised then return end
  local next, k = chain.neighbour(recipe, i, 1, chain.STILL)
  if not next or chain.get(next, "with") ~= "neutraliser" then
    report { on = step, field = "with", message = ("nothing neutralises %s"):format(chain.get(step, "with")),
      fix = mending.after(recipe, step, 'clean %s { with = "neutraliser" }', "neutralise " .. step.name),
      labels = next and { { on = next, text = "the next step" } } }
    return
  end
  local rinse = chain.neighbour(recipe, k, 1, chain.STILL)
  if not rinse or rinse.word ~= "clean" then
    report { on = next, message = ("nothing rinses the floor after %s"):format(next.name),
      labels = { { on = step, text = "the stain" } },
      fix = mending.after(recipe, next, 'clean %s { with = "water", dry = "4 h" }', "rinse after " .. next.name),
      help = 'follow it with: clean "rinse" { with = "water", dry = "4 h" }' }
  end
end

local function check_locked(step, report, recipe, i)
  local locks = function(later) return later.word == "densify" or later.word == "guard" end
  if not chain.later(recipe, i, locks) then
    report { on = step,
      message = ("nothing locks the colour of %s in: no densifier and no guard follows"):format(step.name) }
  end
end

return {
  {
    id = "dye-closed", level = "error", scope = "recipe",
    says = "a dye or stain goes on before the surface closes: after 100 to 400 resin, commonly 200",
    basis = "after 100-400 resin, commonly 200", status = "common practice",
    help = "put it after the 200 or 400 step",
    bad = [[
      polish "800" { grit = 800, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "20 min" },
      clean "wipe" { with = "neutral cleaner", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
      wait "set" { time = "2 h" },
    ]],
    good = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "20 min" },
      clean "wipe" { with = "neutral cleaner", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(COLOUR, check_closed),
  },
  {
    id = "dye-dry", level = "warning", scope = "recipe",
    says = "the floor is dry before a dye or stain: the step before it gives a drying time, is a wait, or vacuums",
    basis = "bone dry and vacuumed", status = "common practice",
    help = 'give the step before it dry = "2 h", or put a wait between them',
    bad = [[
      clean "wash" { with = "water" },
      dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "20 min" },
      clean "wipe" { with = "neutral cleaner", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "20 min" },
      clean "wipe" { with = "neutral cleaner", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(COLOUR, check_dry),
  },
  {
    id = "colour-time", level = "warning", scope = "recipe",
    says = "a dye or guard dries and a stain reacts as long as its kind wants",
    basis = "acetone dye 5-30 min, water dye 1-4 h, guard 20-60 min; acid stain 4-24 h (trade reference page)",
    status = "common practice",
    help = "give it longer; the product's data sheet goes first",
    bad = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      dye "walnut" { with = "water dye", spread = "400 sqft/gal", dry = "10 min" },
      clean "wipe" { with = "neutral cleaner", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      dye "walnut" { with = "water dye", spread = "400 sqft/gal", dry = "2 h" },
      clean "wipe" { with = "neutral cleaner", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each({ dye = true, stain = true, guard = true }, check_time),
  },
  {
    id = "stain-neutral", level = "error", scope = "recipe",
    says = "an acid stain is neutralised and rinsed before anything else",
    basis = "acid left in the floor goes on reacting and eats the densifier", status = "common practice",
    help = 'follow it with: clean "neutral" { with = "neutraliser" }, clean "rinse" { with = "water", dry = "4 '
      .. 'h" }',
    bad = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      stain "rust" { with = "acid stain", spread = "250 sqft/gal", dwell = between("4 h", "24 h") },
      clean "wipe" { with = "neutral cleaner", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      stain "rust" { with = "acid stain", spread = "250 sqft/gal", dwell = between("4 h", "24 h") },
      clean "neutral" { with = "neutraliser" },
      clean "rinse" { with = "water", dry = "4 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each({ stain = true }, check_neutral),
  },
  {
    id = "dye-locked", level = "warning", scope = "recipe",
    says = "a densifier or guard comes after a dye",
    basis = "dye first, then densifier, locks the colour", status = "common practice",
    help = "densify or guard after the dye",
    bad = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "20 min" },
    ]],
    good = [[
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "20 min" },
      clean "wipe" { with = "neutral cleaner", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(COLOUR, check_locked),
  },
}
