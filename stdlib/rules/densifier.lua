--- Densifier: in its place, in its dose, in its time.
local air = require "native.air"
local chain = require "core.chain"
local chemistry = require "native.chemistry"
local climate = require "core.climate"
local mending = require "core.mending"

local DENSIFY = { densify = true }

local function check_place(step, report, recipe, i)
  local finest = chain.finest_before(recipe, i)
  for k = 1, i - 1 do if recipe.steps[k].word == "densify" then return end end
  if finest and finest.tool.grit >= 800 and finest.tool.bond ~= "fibre" then
    report { on = step, message = ("%s comes after grit %g, when the surface has closed"):format(step.name,
      finest.tool.grit),
      labels = { { on = finest.step, field = "grit", text = "already this fine" } } }
  end
end

local function check_cut(step, report, recipe, i)
  local cut = chain.later(recipe, i, function(later) return chain.get(later, "bond") == "metal" end)
  if cut then
    report { on = cut, field = "bond", message = ("%s cuts away the surface that %s has hardened"):format(cut.name,
      step.name),
      labels = { { on = step, text = "densified here" } } }
  end
end

local function check_dwell(step, report, recipe)
  if not chain.written(step, "dwell") and not chain.written(step, "dry") then
    report { on = step, message = ("%s says neither dwell nor dry"):format(step.name),
      fix = mending.field(recipe, step, "dry", '"1 h"') }
  end
end

-- Minutes from spreading to the next step.
local function time_of(step) return (chain.number(step, "dwell", "min") or 0) + (chain.number(step, "dry", "min")
  or 0) end

local function check_short(step, report, recipe)
  local row, minutes = chemistry.find(chain.get(step, "with") or ""), time_of(step)
  if not row or minutes == 0 then return end
  local least = math.max(row.dwell_low, row.dry_low)
  if least > 0 and minutes < least then
    local field = chain.written(step, "dwell") and "dwell" or "dry"
    report { on = step, field = field, fix = mending.field(recipe, step, field, ('"%g min"'):format(least)),
      message = ("%s has %g min; %s wants %g min or more"):format(step.name, minutes, chain.get(step, "with"),
        least) }
  end
end

local function check_flush(step, report, recipe, i)
  local row = chemistry.find(chain.get(step, "with") or "")
  if not row or not row.must_be_removed then return end
  local next = chain.neighbour(recipe, i, 1, chain.STILL)
  if not next or (next.word ~= "clean" and next.word ~= "collect" and next.word ~= "densify") then
    report { on = step, field = "with",
      fix = mending.after(recipe, step, 'clean %s { with = "water", dry = "1 h" }', "flush after " .. step.name),
      message = ("nothing takes off the excess of %s: it whitens"):format(chain.get(step, "with")),
      labels = next and { { on = next, text = "the next step" } } }
  end
end

local function check_missing(recipe, report)
  local appearance, at = chain.promise(recipe, "appearance")
  if (appearance ~= "polished" and appearance ~= "highly polished") or not chain.is_whole(recipe) then return end
  for _, step in ipairs(recipe.steps) do if step.word == "densify" then return end end
  report { at = at, message = ("%s is promised, and nothing densifies the slab"):format(appearance) }
end

local DENSIFIER_WATER = 0.8 -- share of the film that can evaporate: solids run 10-40 % by product

-- Quiet indoor air, where the job says nothing: 20 degC, 50 %, doors in use.
local INDOORS = { air_c = 20, humidity = 0.5, surface_c = 20, wind_km_h = 3.2 }

local REWET_MIN = 5

-- Kept wet by hand in air that dries the film within minutes.
local function check_rewet(step, report, _, job)
  local site, at = climate.of(job)
  local dwell, spread = chain.number(step, "dwell", "min"), chain.get(step, "spread")
  if not site or not dwell or not spread or not spread.high or chain.get(step, "keep") ~= "wet" then return end
  local early = air.wet_life(site, spread.high:to("m2/L"), DENSIFIER_WATER)
  local minutes = early and early * 60
  if minutes and minutes < REWET_MIN and dwell > minutes then
    report { field = "keep",
      message = ("%s must be wetted again every %.1f min in this climate, %.0f times in its dwell of %g min"):format(
        step.name, minutes, math.ceil(dwell / minutes) - 1, dwell), labels = { { at = at, text = "the climate" } } }
  end
end

local SOFT_MOHS = 4

local function check_soft(recipe, report, job)
  local mohs, at = nil, nil
  if job then mohs, at = chain.inner(job, "slab", "hardness") end
  local appearance, coats, last = chain.promise(recipe, "appearance"), 0, nil
  if not mohs or mohs >= SOFT_MOHS or (appearance ~= "polished" and appearance ~= "highly polished") then return end
  for _, i in ipairs(chain.places(recipe, "densify") or {}) do
    last = recipe.steps[i]
    coats = coats + (chain.get(last, "coats") or 1)
  end
  if coats == 1 then
    report { on = last, message = ("%s is the only coat of densifier on a soft slab (Mohs %g)"):format(last.name, mohs),
      labels = { { at = at, text = "the slab" } } }
  end
end

local function check_wet_life(step, report, recipe, job)
  local site = climate.of(job) or INDOORS
  local dwell, spread = chain.number(step, "dwell", "min"), chain.get(step, "spread")
  if not dwell or not spread or not spread.high or chain.get(step, "keep") == "wet" then return end
  local early, likely = air.wet_life(site, spread.high:to("m2/L"), DENSIFIER_WATER)
  if likely and dwell > likely * 60 then
    report { field = "dwell",
      fix = early * 60 >= REWET_MIN and mending.field(recipe, step, "keep", '"wet"'),
      message = ("the film stays wet for about %.0f min (%.0f at the worst) in %s; the dwell is %g min"):
      format(likely * 60, early * 60, site == INDOORS and "quiet indoor air" or "the climate of the job", dwell) }
  end
end

return {
  {
    id = "densifier-place", level = "warning", scope = "recipe",
    says = "the first densifier comes before grit 800, while the floor is still open",
    basis = "before the second, third or fourth pass (supplier guide); usually after 80 to 200",
    status = "common practice",
    help = "densify once the first scratches are out, usually after 80 to 200",
    bad = [[
      hone "400" { grit = 400, bond = "resin", passes = 6 },
      polish "800" { grit = 800, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(DENSIFY, check_place),
  },
  {
    id = "densifier-cut", level = "warning", scope = "recipe",
    says = "no metal tool follows a densifier",
    basis = "what was hardened is ground off again", status = "common practice",
    help = "densify after the last metal",
    bad = [[
      clean "wash" { with = "water", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
      grind "40" { grit = 40, bond = "metal", passes = 3 },
    ]],
    good = [[
      grind "40" { grit = 40, bond = "metal", passes = 3 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(DENSIFY, check_cut),
  },
  {
    id = "densifier-dwell", level = "warning", scope = "recipe",
    says = "a densifier is given a time to react: a dwell or a drying time",
    basis = "15 to 60 min by chemistry; the product's data sheet goes first", status = "common practice",
    help = 'add dry = "1 h", or dwell = between("25 min", "45 min") and who keeps it wet',
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(DENSIFY, check_dwell),
  },
  {
    id = "densifier-short", level = "warning", scope = "recipe",
    says = "the time of a densifier is no shorter than its chemistry wants",
    basis = "sodium and potassium silicate 30-60 min wet, lithium 30-60, colloidal silica 15-60 min dry",
    status = "common practice",
    help = "give it longer, or follow the product's data sheet and say so in a waiver",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "5 min" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(DENSIFY, check_short),
  },
  {
    id = "densifier-flush", level = "error", scope = "recipe",
    says = "the excess of sodium and potassium silicate is scrubbed off",
    basis = "what is left whitens; trade press", status = "confirmed",
    help = 'follow it with: clean "flush" { with = "water" }',
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "sodium silicate", spread = "200 sqft/gal", dwell = "40 min", keep = "wet" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "sodium silicate", spread = "200 sqft/gal", dwell = "40 min", keep = "wet" },
      clean "flush" { with = "water" },
    ]],
    check = chain.each(DENSIFY, check_flush),
  },
  {
    id = "densifier-missing", level = "warning", scope = "recipe",
    says = "a whole chain to a polished floor densifies the slab",
    basis = "soft paste takes no lasting polish", status = "common practice",
    help = "add a densify step after 80 to 200",
    bad = [[
      finish = { appearance = "polished" },
      hone "50" { grit = 50, bond = "resin" },
      hone "80" { grit = 80, bond = "resin" },
      hone "100" { grit = 100, bond = "resin" },
      hone "150" { grit = 150, bond = "resin" },
      hone "200" { grit = 200, bond = "resin" },
      polish "400" { grit = 400, bond = "resin" },
      check "clarity" { measure = "image clarity", want = at_least(40), hold = true },
    ]],
    good = [[
      finish = { appearance = "satin" },
      hone "50" { grit = 50, bond = "resin" },
      hone "80" { grit = 80, bond = "resin" },
      hone "100" { grit = 100, bond = "resin" },
      hone "150" { grit = 150, bond = "resin" },
      hone "200" { grit = 200, bond = "resin" },
      check "clarity" { measure = "image clarity", want = at_least(10), hold = true },
    ]],
    check = check_missing,
  },
  {
    id = "densifier-dries", level = "warning", scope = "step", words = DENSIFY, in_job = true,
    says = "a densifier stays wet for its dwell in the climate of the job, else in quiet indoor air, or somebody "
      .. "keeps it wet",
    basis = "evaporation from a wet floor (Uno 1998, good to 40 %) against the film of its spread rate",
    status = "computed",
    help = 'say keep = "wet", spread it heavier, or stop the draught',
    bad = [[
      climate = { air = "95 F", humidity = "20 %", surface = "95 F", wind = "12 mph" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
          densify "densify" { with = "lithium silicate",
          spread = "700 sqft/gal", dwell = "45 min" } } },
    ]],
    good = [[
      climate = { air = "70 F", humidity = "50 %", surface = "68 F" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
          densify "densify" { with = "lithium silicate",
          spread = "700 sqft/gal", dwell = "45 min", keep = "wet" } } },
    ]],
    check = check_wet_life,
  },
  {
    id = "rewet-often", level = "warning", scope = "step", words = DENSIFY, in_job = true,
    says = "a film that is kept wet by hand lasts five minutes between two wettings in the climate of the job",
    basis = "evaporation from a wet floor (Uno 1998, good to 40 %) against the film of its spread rate",
    status = "computed",
    help = "stop the draught, spread it heavier, or work at a cooler hour",
    bad = [[
      climate = { air = "95 F", humidity = "20 %", surface = "95 F", wind = "12 mph" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
          densify "densify" { with = "lithium silicate",
          spread = "700 sqft/gal", dwell = "45 min", keep = "wet" } } },
    ]],
    good = [[
      climate = { air = "70 F", humidity = "50 %", surface = "68 F" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
          densify "densify" { with = "lithium silicate",
          spread = "500 sqft/gal", dwell = "45 min", keep = "wet" } } },
    ]],
    check = check_rewet,
  },
  {
    id = "densifier-soft", level = "warning", scope = "recipe", in_job = true,
    says = "a slab below Mohs 4 gets a second coat of densifier on its way to a polished floor",
    basis = "a second coat after 400 on soft or porous slabs", status = "common practice",
    help = "add a second densify step after 400, or say coats = 2; an absorption test on the slab tells",
    bad = [[
      slab = { hardness = 3.5 },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" { finish = { appearance = "polished" },
        clean "wash" { with = "water", dry = "1 h" },
        densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
        check "clarity" { measure = "image clarity", want = at_least(40), hold = true } } },
    ]],
    good = [[
      slab = { hardness = 3.5 },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" { finish = { appearance = "polished" },
        clean "wash" { with = "water", dry = "1 h" },
        densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", coats = 2, dry = "1 h" },
        check "clarity" { measure = "image clarity", want = at_least(40), hold = true } } },
    ]],
    check = check_soft,
  },
}
