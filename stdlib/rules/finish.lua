--- What is promised against what the chain can give.
local abrasive = require "native.abrasive"
local chain = require "core.chain"
local mending = require "core.mending"

local FIRST = { ["coarse aggregate"] = 30, ["fine aggregate"] = 80 } -- coarsest that still opens so far
local LAST = { satin = 100, polished = 400, ["highly polished"] = 800 }
local LEAST_STEPS = { flat = 4, satin = 5, polished = 6, ["highly polished"] = 7 }
local CLARITY = { flat = 0, satin = 10, polished = 40, ["highly polished"] = 70 }
local IDEAL_GU = 101 -- a smooth surface of index 1.567 reads 100; quartz and paste less

local function sheen_tools(recipe)
  local tools, finish = {}, "bare"
  for _, entry in ipairs(chain.tools(recipe)) do
    local tool = entry.tool
    tools[#tools + 1] = { grit = tool.grit, bond = tool.bond, system = tool.system, cleared = true }
  end
  for _, step in ipairs(recipe.steps) do
    if step.word == "burnish" and finish == "bare" then finish = "burnished" end
    if step.word == "guard" then finish = "guarded" end
  end
  return tools, finish
end

local function check_gloss(recipe, report)
  local promise, at = chain.promise(recipe, "gloss")
  local tools, finish = sheen_tools(recipe)
  if not promise or not promise.low or promise.low > IDEAL_GU or #tools == 0 then return end
  local low, high = abrasive.sheen(tools, finish)
  if low and promise.low > high then
    report { at = at,
      message = ("a gloss of %g is promised; this chain gives about %.0f to %.0f"):format(promise.low, low, high),
      help = "add finer steps, burnish, or promise less" }
  elseif low and promise.low > low then
    report { level = "warning", at = at,
      message = ("a gloss of %g is promised; this chain gives about %.0f to %.0f, so some floors "
      .. "will miss it"):format(promise.low, low, high) }
  end
end

local function check_ceiling(recipe, report)
  local promise, at = chain.promise(recipe, "gloss")
  if not promise or not promise.low or promise.low <= IDEAL_GU then return end
  local tools, finish = sheen_tools(recipe)
  local low, high
  if #tools > 0 then low, high = abrasive.sheen(tools, finish) end
  report { at = at,
    message = ("a gloss of %g is promised; a perfectly smooth floor reads about 100"):format(promise.low),
    note = low and ("this chain gives about %.0f to %.0f"):format(low, high) }
end

local function check_first(recipe, report)
  local exposure, at = chain.promise(recipe, "exposure")
  local first = chain.tools(recipe)[1]
  if not exposure or not first then return end
  local limit = FIRST[exposure]
  if limit and first.tool.grit > limit then
    report { on = first.step, field = "grit",
      message = ("%s is promised, and the first abrasive is grit %g"):format(exposure,
      first.tool.grit), labels = { { at = at, text = "promised here" } },
      help = exposure == "coarse aggregate" and "coarse aggregate starts at 16-20"
        or "salt and pepper starts at 40-80" }
  end
end

local function check_cream(recipe, report)
  local exposure, at = chain.promise(recipe, "exposure")
  local first = chain.tools(recipe)[1]
  if exposure == "cream" and first and first.tool.bond == "metal" and first.tool.grit < 80 then
    report { on = first.step, field = "grit",
      message = ("cream is promised, and metal %g cuts through it"):format(first.tool.grit),
      labels = { { at = at, text = "promised here" } } }
  end
end

local function check_last(recipe, report)
  local appearance, at = chain.promise(recipe, "appearance")
  local tools, limit = chain.tools(recipe), LAST[appearance]
  local last = tools[#tools]
  if limit and last and last.tool.grit < limit then
    report { on = last.step, field = "grit",
      message = ("%s is promised, and the last abrasive is grit %g, not %g or finer"):format(
        appearance, last.tool.grit, limit), labels = { { at = at, text = "promised here" } } }
  end
end

local function check_count(recipe, report)
  local appearance, at = chain.promise(recipe, "appearance")
  local least, count = LEAST_STEPS[appearance], 0
  for _, step in ipairs(recipe.steps) do if chain.tool(step) then count = count + 1 end end
  if least and chain.is_whole(recipe) and count < least then
    report { at = at,
      message = ("%s is promised with %d abrasive steps; the older chart asks for %d"):format(
        appearance, count, least) }
  end
end

local CUTS = { grind = true, hone = true, polish = true, burnish = true }

-- The last step that works on the finish before any guard, or what takes up after it.
local function last_work(recipe)
  local last
  for i, step in ipairs(recipe.steps) do
    if step.word == "guard" then break end
    if CUTS[step.word] then last = i end
  end
  return last and mending.cleaned(recipe, last)
end

-- The check of what is promised: its name and fields. The gloss, else the clarity of the appearance level.
local function reading_of(recipe)
  local gloss = chain.promise(recipe, "gloss")
  local measure, least = "gloss 60", gloss and gloss.low
  if not gloss then measure, least = "image clarity", CLARITY[chain.promise(recipe, "appearance")] end
  if not least or least <= 0 then return nil end
  return gloss and "sheen" or "clarity", ('{ measure = "%s", want = at_least(%g), hold = true }'):format(measure, least)
end

local function check_read(recipe, report)
  if not (chain.promise(recipe, "gloss") or chain.promise(recipe, "appearance")) then return end
  local guard
  for _, step in ipairs(recipe.steps) do
    if step.word == "guard" and not guard then guard = step end
    local measure = step.word == "check" and chain.get(step, "measure")
    if measure and (measure:find("^gloss") or measure == "image clarity") and chain.get(step, "want") then
      if guard then
        report { on = step, field = "measure", message = ("%s reads the finish after the guard"):format(step.name),
          labels = { { on = guard, text = "lifts readings without refining the floor" } },
            help = "read before the guard" }
      end
      return
    end
  end
  local name, reading = reading_of(recipe)
  local step = name and last_work(recipe)
  report { at = recipe.record.at.finish, message = "a finish is promised and no check holds the floor to it",
    fix = step and mending.after(recipe, step, "check %s " .. reading, name),
    help = name and ('add: check "%s" %s'):format(name, reading) }
end

local function check_promise(step, report, recipe)
  local want = chain.get(step, "want")
  local measure = chain.get(step, "measure")
  local promise, at = chain.promise(recipe, "gloss")
  local least, what = promise and promise.low, "a gloss of "
  if measure == "image clarity" then
    local appearance
    appearance, at = chain.promise(recipe, "appearance")
    least, what = CLARITY[appearance], "image clarity of "
  elseif measure ~= "gloss 60" then return end
  local wanted = want and want.low and chain.plain(want.low, "")
  if least and wanted and wanted < least then
    report { field = "want", fix = mending.field(recipe, step, "want", ("at_least(%g)"):format(least)),
      message = ("%s%g is promised, and %s lets %g pass"):format(what, least, step.name,
      wanted),
      labels = { { at = at, text = "promised here" } } }
  end
end

return {
  {
    id = "gloss-promise", level = "error", scope = "recipe",
    says = "the chain can reach the gloss promised: the trade's band for the last abrasive, burnish and guard",
    basis = "expected gloss by last step; a model is no measurement", status = "common practice",
    help = "settle it on a mock-up, or add a finer step",
    bad = [[
      finish = { gloss = at_least(60) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(60), hold = true },
    ]],
    good = [[
      finish = { gloss = at_least(8) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(8), hold = true },
    ]],
    check = check_gloss,
  },
  {
    id = "gloss-ceiling", level = "error", scope = "recipe",
    says = "no more gloss is promised than a perfectly smooth bare floor can have",
    basis = "Fresnel reflection of paste and quartz on the scale of ASTM D523: 90 to 100 GU at 60 degrees",
    status = "computed",
    help = "a figure far above 100 comes from a film, metal or a misread meter",
    bad = [[
      finish = { gloss = at_least(130) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(130), hold = true },
    ]],
    good = [[
      finish = { gloss = at_least(8) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(8), hold = true },
    ]],
    check = check_ceiling,
  },
  {
    id = "first-tool", level = "warning", scope = "recipe",
    says = "the first abrasive is coarse enough for the exposure promised",
    basis = "starting grit by exposure: coarse aggregate 16-20, salt and pepper 40-80, cream 150; tool "
      .. "supplier's guide",
    status = "confirmed",
    help = "start coarser, or promise less exposure",
    bad = [[
      finish = { exposure = "fine aggregate" },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "cut" { measure = "colour", hold = true },
    ]],
    good = [[
      finish = { exposure = "cream" },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
    ]],
    check = check_first,
  },
  {
    id = "cream-cut", level = "warning", scope = "recipe",
    says = "a floor that shall keep its cream is not opened with coarse metal",
    basis = "cream starts at about 150; tool supplier's guide. Metal under 80 takes the cream off",
    status = "common practice",
    help = "open with 80 metal or finer, or with resin",
    bad = [[
      finish = { exposure = "cream" },
      grind "40" { grit = 40, bond = "metal", passes = 2 },
    ]],
    good = [[
      finish = { exposure = "cream" },
      grind "120" { grit = 120, bond = "metal", passes = 2 },
    ]],
    check = check_cream,
  },
  {
    id = "last-tool", level = "warning", scope = "recipe",
    says = "the last abrasive is fine enough for the appearance promised: 100 satin, 400 polished, 800 highly "
      .. "polished",
    basis = "final grits of the older chart of appearance levels", status = "confirmed",
    help = "add finer steps, or promise less",
    bad = [[
      finish = { appearance = "satin" },
      hone "50" { grit = 50, bond = "resin" },
      hone "55" { grit = 55, bond = "resin" },
      hone "60" { grit = 60, bond = "resin" },
      hone "70" { grit = 70, bond = "resin" },
      hone "80" { grit = 80, bond = "resin" },
      check "clarity" { measure = "image clarity", want = at_least(10), hold = true },
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
    check = check_last,
  },
  {
    id = "step-count", level = "warning", scope = "recipe",
    says = "a whole chain has as many abrasive steps as its appearance level asks for: 4, 5, 6, 7, burnishing "
      .. "counted",
    basis = "least number of passes in the older chart of appearance levels, two contractors' pages",
    status = "confirmed",
    help = "add the steps between, or prove on a mock-up that fewer do",
    bad = [[
      finish = { appearance = "satin" },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "clarity" { measure = "image clarity", want = at_least(10), hold = true },
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
    check = check_count,
  },
  {
    id = "finish-read", level = "warning", scope = "recipe",
    says = "a recipe that promises a gloss or an appearance reads it against a wanted value, before any guard",
    basis = "acceptance is judged before a guard or sealer goes on; contractor quality page and trade press",
    status = "confirmed",
    help = 'add: check "sheen" { measure = "gloss 60", want = at_least(45), hold = true }',
    bad = [[
      finish = { gloss = at_least(8) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
    ]],
    good = [[
      finish = { gloss = at_least(8) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(8), hold = true },
    ]],
    check = check_read,
  },
  {
    id = "promise-read", level = "error", scope = "step", words = { check = true },
    says = "a check of the finish lets nothing pass that is below the promise",
    basis = "a promise is what the readings are held against", status = "common practice",
    help = "raise `want` to the promise, or lower the promise",
    bad = [[
      finish = { gloss = at_least(8) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(6), hold = true },
    ]],
    good = [[
      finish = { gloss = at_least(8) },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
      check "sheen" { measure = "gloss 60", want = at_least(8), hold = true },
    ]],
    check = check_promise,
  },
}
