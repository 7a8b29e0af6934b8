--- Readings: enough of them, on a scale that exists, at points where work stops.
local chain = require "core.chain"
local chemistry = require "native.chemistry"
local mending = require "core.mending"

local FINISH = { ["gloss 60"] = true, ["gloss 20"] = true, ["gloss 85"] = true, ["image clarity"] = true }
local SCALES = { -- what a reading can be at all
  ["gloss 60"] = { 0, 200 }, ["gloss 20"] = { 0, 200 }, ["gloss 85"] = { 0, 200 }, ["image clarity"] = { 0, 100 },
  ["mohs hardness"] = { 1, 10 }, ["wet slip"] = { 0, 2 }, flatness = { 1, 150 }, levelness = { 1, 150 },
    haze = { 0, 200 },
}
local LEAST_PER_1000_SQFT, LEAST_READINGS = 1, 3

local function readings_of(recipe, measure)
  local list = {}
  for _, step in ipairs(recipe.steps) do
    if step.word == "check" and (chain.get(step, "measure") == measure or (type(measure) == "table"
      and measure[chain.get(step, "measure")])) then
      list[#list + 1] = step
    end
  end
  return list
end

local function check_enough(step, report, recipe)
  if not chain.written(step, "want") then return end
  local density, least = chain.number(step, "readings", "each/1000 sqft"), chain.number(step, "least", "")
  if density and density < LEAST_PER_1000_SQFT * 0.99 then
    report { field = "readings", fix = mending.field(recipe, step, "readings", '"1 per 500 sqft"'),
      message = ("%s reads once in %.0f sqft; once in 1,000 is the least"):format(step.name, 1000 / density) }
  elseif least and least < LEAST_READINGS then
    report { field = "least", fix = mending.field(recipe, step, "least", ("%d"):format(LEAST_READINGS)),
      message = ("%s is content with %d readings; three are the least"):format(step.name, least) }
  end
end

local function check_scale(step, report)
  local want, scale = chain.get(step, "want"), SCALES[chain.get(step, "measure")]
  if not want or not scale then return end
  for _, at in ipairs { want.low or false, want.high or false } do
    local ok, figure = pcall(chain.plain, at or nil, "")
    if at and ok and figure and (figure < scale[1] or figure > scale[2]) then
      report { field = "want", message = ("%s of %g: the scale goes from %g to %g"):format(chain.get(step,
        "measure"), figure, scale[1], scale[2]) }
      return
    end
  end
end

local function check_hold(recipe, report)
  local list = readings_of(recipe, FINISH)
  if not (chain.promise(recipe, "gloss") or chain.promise(recipe, "appearance")) or #list == 0 then return end
  for _, step in ipairs(list) do if chain.get(step, "hold") then return end end
  report { on = list[#list], fix = mending.field(recipe, list[#list], "hold", "true"),
    message = ("%s reads the promised finish and holds nothing up"):format(list[#list].name) }
end

-- The last metal step, or what takes up after it; the first abrasive where none is metal.
local function last_cut(recipe)
  local tools = chain.tools(recipe)
  local cut = tools[1]
  for _, entry in ipairs(tools) do if entry.tool.bond == "metal" then cut = entry end end
  return cut and mending.cleaned(recipe, cut.index)
end

local function check_exposure(recipe, report)
  local exposure, at = chain.promise(recipe, "exposure")
  if exposure ~= "fine aggregate" and exposure ~= "coarse aggregate" then return end
  for _, step in ipairs(recipe.steps) do
    if step.word == "check" and chain.get(step, "hold")
      and (chain.get(step, "measure") == "colour" or chain.get(step, "measure") == "roughness") then
      return
    end
  end
  local cut = last_cut(recipe)
  report { at = at,
    fix = cut and mending.after(recipe, cut, 'check %s { measure = "colour", hold = true }', "exposure"),
    message = ("%s is promised, and nobody is shown the cut before it is polished"):format(exposure) }
end

local function check_survey(recipe, report)
  local suits, at = chain.inner(recipe, "suits", "hardness")
  for _, step in ipairs(suits and readings_of(recipe, "mohs hardness") or {}) do
    local want = chain.get(step, "want")
    local wider = want and ((suits.low and (not want.low or want.low < suits.low))
      or (suits.high and (not want.high or want.high > suits.high)))
    if wider then
      local window = mending.literal(at)
      report { on = step, field = "want", fix = window and mending.field(recipe, step, "want", window),
        message = ("%s lets slabs pass that the recipe does not suit"):format(step.name),
        labels = { { at = at, text = "what it suits" } } }
    end
  end
end

local CUTS = { grind = true, hone = true, polish = true, burnish = true }

local function check_early(step, report, recipe, i)
  if not FINISH[chain.get(step, "measure")] or not chain.written(step, "want") then return end
  local want = chain.get(step, "want")
  if not want or not want.low then return end -- a reading of how dull it is
  local later, guarded
  for k = i + 1, #recipe.steps do
    guarded = guarded or recipe.steps[k].word == "guard"
    if CUTS[recipe.steps[k].word] and not guarded then later = later or recipe.steps[k] end
  end
  if later then
    report { on = step, message = ("%s reads the finish before %s changes it"):format(step.name, later.name),
      labels = { { on = later, text = "works on it after the reading" } } }
  end
end

local function check_survey_first(step, report, recipe, i)
  if chain.get(step, "measure") ~= "mohs hardness" then return end
  local finest = chain.finest_before(recipe, i)
  if finest then
    report { on = step, message = ("%s reads the slab after %s has cut it"):format(step.name, finest.step.name),
      labels = { { on = finest.step, text = "cuts before the reading" } } }
  elseif chain.written(step, "want") and not chain.get(step, "hold") then
    report { on = step, fix = mending.field(recipe, step, "hold", "true"),
      message = ("%s says what slab is wanted and holds nothing up"):format(step.name) }
  end
end

local function check_slip(recipe, report)
  local use, at = chain.promise(recipe, "slip")
  if not use then return end
  local least, wet = chemistry.slip(use)
  local step = readings_of(recipe, "wet slip")[1]
  local want = step and chain.get(step, "want")
  local wanted = want and want.low and chain.plain(want.low, "")
  if step and (not wanted or wanted < least) then
    report { on = step, field = "want", fix = mending.field(recipe, step, "want", ("at_least(%g)"):format(least)),
      message = ("%s asks for a DCOF of %g or more; %s lets %g pass"):format(use, least, step.name, wanted or 0),
      labels = { { at = at, text = "promised here" } } }
  elseif not step and wet then
    local read = ('{ measure = "wet slip", want = at_least(%g), hold = true }'):format(least)
    report { at = at, message = ("%s is promised, and no check reads the wet slip"):format(use),
      fix = mending.last(recipe, "check %s " .. read, "slip"), help = 'add: check "slip" ' .. read }
  end
end

return {
  {
    id = "readings-enough", level = "warning", scope = "step", words = { check = true },
    says = "what is wanted is read at three places at least, and once for each 1,000 sqft",
    basis = "3 tests for the first 1,000 sqft, then 1 for each further 1,000; guide specification page",
    status = "confirmed",
    help = 'say readings = "1 per 500 sqft"',
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(5), readings = "1 per 5000 sqft", hold = true },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(5), readings = "1 per 500 sqft", hold = true },
    ]],
    check = check_enough,
  },
  {
    id = "reading-scale", level = "error", scope = "step", words = { check = true },
    says = "a wanted reading lies on the scale of its measure",
    basis = "the scales of the measuring methods", status = "computed",
    help = "check the figure, or the measure",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "clarity" { measure = "image clarity", want = at_least(400), hold = true },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "clarity" { measure = "image clarity", want = at_least(40), hold = true },
    ]],
    check = check_scale,
  },
  {
    id = "hold-finish", level = "warning", scope = "recipe",
    says = "a promised finish is read at a hold point",
    basis = "work stops until the readings are signed", status = "common practice",
    help = "add hold = true",
    bad = [[
      finish = { gloss = at_least(4) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(4) },
    ]],
    good = [[
      finish = { gloss = at_least(4) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(4), hold = true },
    ]],
    check = check_hold,
  },
  {
    id = "exposure-shown", level = "warning", scope = "recipe",
    says = "promised aggregate is shown at a hold point before it is polished",
    basis = "owners and contractors disagree about depth; trade news on the 2017 chart", status = "confirmed",
    help = 'add after the cut: check "exposure" { measure = "colour", hold = true }',
    bad = [[
      finish = { exposure = "fine aggregate" },
      grind "40" { grit = 40, bond = "metal", passes = 3 },
    ]],
    good = [[
      finish = { exposure = "fine aggregate" },
      grind "40" { grit = 40, bond = "metal", passes = 3 },
      check "exposure" { measure = "colour", hold = true },
    ]],
    check = check_exposure,
  },
  {
    id = "survey-window", level = "warning", scope = "recipe",
    says = "a survey of hardness lets no slab pass that the recipe does not suit",
    basis = "the recipe says what it is made for", status = "common practice",
    help = "give both the same window",
    bad = [[
      suits = { hardness = between(3, 5) },
      check "survey" { measure = "mohs hardness", want = between(3, 8), hold = true },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    good = [[
      suits = { hardness = between(3, 5) },
      check "survey" { measure = "mohs hardness", want = between(3, 5), hold = true },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    check = check_survey,
  },
  {
    id = "read-early", level = "warning", scope = "recipe",
    says = "a wanted finish is read after the last abrasive and burnish, before the guard",
    basis = "what comes later changes the reading", status = "common practice",
    help = "move the check behind them",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(4), hold = true },
      burnish "finish" { grit = 3000 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      burnish "finish" { grit = 3000 },
      check "sheen" { measure = "gloss 60", want = at_least(4), hold = true },
    ]],
    check = chain.each({ check = true }, check_early),
  },
  {
    id = "survey-first", level = "warning", scope = "recipe",
    says = "the hardness of the slab is read before the first abrasive, at a hold point",
    basis = "know the slab before the tools are chosen", status = "common practice",
    help = "put it first, with hold = true",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "survey" { measure = "mohs hardness", want = between(3, 6), hold = true },
    ]],
    good = [[
      check "survey" { measure = "mohs hardness", want = between(3, 6), hold = true },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    check = chain.each({ check = true }, check_survey_first),
  },
  {
    id = "slip-read", level = "warning", scope = "recipe", law = true,
    says = "a floor for wet use is read for slip against its category",
    basis = "ANSI A326.3 (2022): 0.42 interior wet to 0.55; the standard says that a reading does not predict "
      .. "slips",
    status = "from memory",
    help = "raise `want` to the category's figure",
    bad = [[
      finish = { slip = "interior wet" },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    good = [[
      finish = { slip = "interior wet" },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      check "slip" { measure = "wet slip", want = at_least(0.42) },
    ]],
    check = check_slip,
  },
}
