--- Slurry, dust and residue: off the floor before they do harm.
local chain = require "core.chain"
local mending = require "core.mending"

local LATEST_MIN = 15
local NEEDS_CLEAN = { densify = true, dye = true, stain = true, guard = true, grout = true, fill = true }

local WASHES = { water = true, ["neutral cleaner"] = true, neutraliser = true }

local function takes_up(step) return step.word == "collect" or step.word == "clean" end

local function check_collect(step, report, recipe, i)
  if not chain.is_wet(step) then return end
  local next = chain.neighbour(recipe, i, 1, { note = true })
  if next and takes_up(next) then return end
  report { on = step, field = "wet", message = ("nothing takes up the slurry of %s"):format(step.name),
    fix = mending.after(recipe, step, 'collect %s { within = "8 min" }', "slurry after " .. step.name),
    help = ('follow it with: collect "slurry after %s" { within = "8 min" }'):format(step.name),
    labels = next and { { on = next, text = "the next step comes onto wet slurry" } } }
end

local function check_soon(step, report, recipe, i)
  if not chain.is_wet(step) then return end
  local next = chain.neighbour(recipe, i, 1, { note = true })
  if not next or not takes_up(next) then return end
  local within = chain.number(next, "within", "min")
  if not chain.written(next, "within") then
    report { on = next, level = "error", fix = mending.field(recipe, next, "within", '"8 min"'),
      message = ("%s does not say how soon the slurry of %s is taken up"):format(next.name, step.name),
      labels = { { on = step, field = "wet", text = "this step leaves slurry" } } }
  elseif within and within > LATEST_MIN then
    report { on = next, field = "within", fix = mending.field(recipe, next, "within", '"8 min"'),
      message = ("slurry of %s may dry before it is taken up within %g min"):format(step.name, within) }
  end
end

local CARE = "rinse the tools before the slurry sets"

local function check_care(step, report, recipe)
  if chain.is_wet(step) and chain.get(step, "bond") == "resin" and not chain.written(step, "care") then
    report { field = "bond", fix = mending.field(recipe, step, "care", ('"%s"'):format(CARE)),
      message = ("%s runs resin tools wet and says nothing of rinsing them"):format(step.name) }
  end
end

local function cleaned(recipe, i)
  for k = i - 1, 1, -1 do
    local step = recipe.steps[k]
    if step.word == "clean" or step.word == recipe.steps[i].word then return true end -- or a coat on its own kind
    if not chain.STILL[step.word] then return false, step end
  end
  return true
end

local function check_clean(step, report, recipe, i)
  local fine, dirty = cleaned(recipe, i)
  local is_repair = step.word == "grout" or step.word == "fill"
  if fine or (is_repair and not chain.is_wet(dirty)) then return end
  local is_wet = chain.is_wet(dirty) or dirty.word == "collect"
  local how = is_wet and '{ with = "water", dry = "1 h" }' or '{ with = "vacuum" }'
  report { on = step, message = ("%s goes onto a floor that was not cleaned"):format(step.name),
    labels = { { on = dirty, text = "leaves the floor dirty" } },
    fix = mending.before(recipe, step, "clean %s " .. how, "clean before " .. step.name),
    help = ('put before it: clean "clean before %s" %s'):format(step.name, how) }
end

-- What lies before a coat since the last abrasive: was it wet, and was the floor washed after it?
local function check_washed(step, report, recipe, i)
  for k = i - 1, 1, -1 do
    local before = recipe.steps[k]
    if WASHES[chain.get(before, "with")] or before.word == step.word then return end
    if chain.ABRASIVE[before.word] then
      if chain.is_wet(before) then
        report { on = step,
          fix = mending.before(recipe, step, 'clean %s { with = "water", dry = "1 h" }',
            "wash before " .. step.name),
          message = ("%s goes onto what the slurry of %s left: nothing washes the floor"):format(
            step.name, before.name),
          labels = { { on = before, field = "wet", text = "wet here" } } }
      end
      return
    end
  end
end

local function check_dust(step, report, recipe, i)
  if chain.is_wet(step) or chain.get(step, "bond") == "fibre" or step.word == "burnish" then return end
  local next, k = nil, i
  repeat
    k = k + 1
    next = recipe.steps[k]
    if not next or takes_up(next) then return end
  until chain.ABRASIVE[next.word] or chain.COATS[next.word]
  if not chain.ABRASIVE[next.word] or next.word == "burnish" or chain.get(step, "bond") ~= "metal" then return end
  report { on = next, message = ("%s starts in the dust and loose grain of %s"):format(next.name, step.name),
    fix = mending.before(recipe, next, 'clean %s { with = "vacuum" }', "vacuum before " .. next.name),
    labels = { { on = step, text = "a dry step with nothing to take up what it leaves" } } }
end

local function check_within(recipe, report)
  local first = recipe.steps[1]
  if first and chain.written(first, "within") then
    report { on = first, field = "within", fix = mending.without(recipe, first, "within"),
      message = ("%s is the first step: there is nothing for it to follow within %s"):format(
        first.name, tostring(chain.get(first, "within"))) }
  end
end

return {
  {
    id = "slurry-collect", level = "error", scope = "recipe",
    says = "every wet abrasive step is followed by collect or clean",
    basis = "pick up at once; dried slurry needs regrinding or scrubbing", status = "common practice",
    help = "take the slurry up before anything else happens",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse the tools" },
      wait "rest" { time = "1 h" },
      clean "wash" { with = "water" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse the tools" },
      collect "slurry" { within = "8 min" },
    ]],
    check = chain.each(chain.ABRASIVE, check_collect),
  },
  {
    id = "slurry-soon", level = "warning", scope = "recipe",
    says = "slurry is taken up within a quarter of an hour, and the recipe says how soon",
    basis = "pick up at once, before it dries", status = "common practice",
    help = 'say within = "8 min"',
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse the tools" },
      collect "slurry" { within = "45 min" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse the tools" },
      collect "slurry" { within = "8 min" },
    ]],
    check = chain.each(chain.ABRASIVE, check_soon),
  },
  {
    id = "tool-care", level = "warning", scope = "step", words = chain.ABRASIVE,
    says = "a wet resin step says what is done to its tools before the slurry sets",
    basis = "rinse floor and pads between every wet grit", status = "common practice",
    help = ('add care = "%s"'):format(CARE),
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true },
      collect "slurry" { within = "8 min" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse the tools" },
      collect "slurry" { within = "8 min" },
    ]],
    check = check_care,
  },
  {
    id = "clean-before", level = "error", scope = "recipe",
    says = "the floor is washed or vacuumed before a densifier, dye, stain or guard goes on, and slurry before a "
      .. "repair",
    basis = "residue under a material keeps it out of the slab", status = "common practice",
    help = "clean the floor first",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(NEEDS_CLEAN, check_clean),
  },
  {
    id = "wet-washed", level = "warning", scope = "recipe",
    says = "after a wet step the floor is washed before a densifier, dye, stain or guard",
    basis = "a vacuum leaves the film that slurry dries to", status = "common practice",
    help = 'put between them: clean "wash" { with = "water", dry = "1 h" }',
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse the tools" },
      collect "slurry" { within = "8 min", dry = "1 h" },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse the tools" },
      collect "slurry" { within = "8 min" },
      clean "wash" { with = "water", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = chain.each(chain.COATS, check_washed),
  },
  {
    id = "dust-between", level = "warning", scope = "recipe",
    says = "after a dry metal step the floor is vacuumed before the next abrasive",
    basis = "clean floor, machine underside and skirt between grits: one stray coarse grain ruins the step; "
      .. "trade press tip",
    status = "confirmed",
    help = 'put between them: clean "vacuum" { with = "vacuum" }',
    bad = [[
      grind "40" { grit = 40, bond = "metal", passes = 3 },
      grind "80" { grit = 80, bond = "metal", passes = 3 },
    ]],
    good = [[
      grind "40" { grit = 40, bond = "metal", passes = 3 },
      clean "vacuum" { with = "vacuum" },
      grind "80" { grit = 80, bond = "metal", passes = 3 },
    ]],
    check = chain.each(chain.ABRASIVE, check_dust),
  },
  {
    id = "within-first", level = "warning", scope = "recipe",
    says = "`within` stands in a step that follows another",
    basis = "it counts from the end of the step before", status = "computed",
    help = "take it out",
    bad = [[
      clean "wash" { with = "water", within = "8 min" },
    ]],
    good = [[
      clean "wash" { with = "water" },
    ]],
    check = check_within,
  },
}
