--- Steps in an order that makes sense: none twice for nothing, none that has nothing to do.
local chain = require "core.chain"
local mending = require "core.mending"

local ONCE = { collect = true, clean = true, check = true, burnish = true, densify = true, dye = true, stain = true,
  guard = true,
  grout = true, fill = true, patch = true, wait = true }
local SAME_BY = { clean = "with", check = "measure", burnish = "grit", densify = "with", dye = "with",
  stain = "with", guard = "with",
  grout = "with", fill = "with", patch = "with" }
local HELP = { densify = "say coats = 2", dye = "say coats = 2", stain = "say coats = 2", guard = "say coats = 2",
  burnish = "say passes = 2", wait = "make it one wait" }

local function check_twice(step, report, recipe, i)
  local next = chain.neighbour(recipe, i, 1, { note = true })
  if not next or next.word ~= step.word then return end
  local field = SAME_BY[step.word]
  if field and (chain.get(step, field) == nil or chain.get(step, field) ~= chain.get(next, field)) then return end
  report { on = next, message = ("%s does what %s has just done"):format(next.name, step.name),
    labels = { { on = step, text = "the first time" } }, help = HELP[step.word],
    fix = not HELP[step.word] and mending.drop(recipe, next) }
end

local function check_nothing(step, report, recipe, i)
  local before = chain.neighbour(recipe, i, -1, { note = true })
  if not chain.written(step, "within") or not before or not chain.ABRASIVE[before.word] or chain.is_wet(before) then
    return end
  report { on = step, fix = mending.without(recipe, step, "within"),
    message = ("%s hurries after %s, which runs dry and leaves no slurry"):format(step.name, before.name),
    labels = { { on = before, text = "runs dry" } } }
end

local function check_alike(recipe, report)
  local wet, dry
  for _, entry in ipairs(chain.tools(recipe)) do
    if entry.tool.bond == "resin" then
      if chain.is_wet(entry.step) then wet = wet or entry.step else dry = dry or entry.step end
    end
  end
  if wet and dry then
    report { on = dry, message = ("%s runs resin dry in a recipe that runs it wet elsewhere"):format(dry.name),
      labels = { { on = wet, field = "wet", text = "wet here" } } }
  end
end

local function check_burnish(step, report, recipe, i)
  local later = chain.later(recipe, i, function(other) return chain.tool(other) and other.word ~= "burnish" end)
  if later then
    report { on = step, message = ("%s burnishes a floor that %s cuts again"):format(step.name, later.name),
      labels = { { on = later, text = "cuts after it" } } }
  end
end

local function check_pause(recipe, report)
  local first = recipe.steps[1]
  if first and first.word == "wait" then
    report { on = first, message = ("%s waits before anything was done"):format(first.name),
      fix = mending.drop(recipe, first) }
  end
end

local function check_further(recipe, report)
  local appearance, at = chain.promise(recipe, "appearance")
  local limit = ({ flat = 200, satin = 1500 })[appearance]
  local tools = chain.tools(recipe)
  local last = tools[#tools]
  if limit and last and last.tool.grit > limit then
    report { on = last.step, field = "grit",
      message = ("%s is promised, and the chain goes on to %g"):format(appearance, last.tool.grit),
      labels = { { at = at, text = "promised here" } } }
  end
end

local USUAL_GLOSS = { flat = { 0, 30 }, satin = { 10, 60 }, polished = { 30, 75 },
  ["highly polished"] = { 50, 101 } }

local function check_agree(recipe, report)
  local appearance, at = chain.promise(recipe, "appearance")
  local gloss, gloss_at = chain.promise(recipe, "gloss")
  local usual = USUAL_GLOSS[appearance]
  if not usual or not gloss or not gloss.low or (gloss.low >= usual[1] and gloss.low <= usual[2]) then return end
  report { at = gloss_at, message = ("a gloss of %g does not go with %s, which is about %g to %g"):format(gloss.low,
    appearance, usual[1], usual[2]),
    labels = { { at = at, text = "promised here" } } }
end

local function check_edges(recipe, report)
  local with, without
  for _, entry in ipairs(chain.tools(recipe)) do
    local edges = chain.get(entry.step, "edges")
    if edges then with = with or entry.step elseif edges == false then without = without or entry.step end
  end
  if with and without then
    report { on = without, field = "edges",
      message = ("%s leaves the edges out, and %s does them: the rim will show"):format(without.name, with.name),
      labels = { { on = with, field = "edges", text = "edges here" } } }
  end
end

return {
  {
    id = "step-twice", level = "warning", scope = "recipe",
    says = "no step does again what the step before it has just done",
    basis = "once is enough, or say coats and passes", status = "common practice",
    help = "take one of the two out",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min", dry = "1 h" },
      collect "slurry again" { },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min", dry = "1 h" },
    ]],
    check = chain.each(ONCE, check_twice),
  },
  {
    id = "slurry-none", level = "warning", scope = "recipe",
    says = "slurry is taken up in a hurry only where a wet step left some",
    basis = "`within` is for slurry that dries", status = "computed",
    help = "run the step wet, or take `within` out",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      collect "slurry" { within = "8 min" },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min", dry = "1 h" },
    ]],
    check = chain.each({ collect = true }, check_nothing),
  },
  {
    id = "wet-alike", level = "warning", scope = "recipe",
    says = "resin tools run wet in all steps of a recipe or in none",
    basis = "the slurry of one step must not meet the dust of the next", status = "common practice",
    help = "set `wet` the same in all of them",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min", dry = "1 h" },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
      collect "slurry" { within = "8 min", dry = "1 h" },
    ]],
    check = check_alike,
  },
  {
    id = "burnish-last", level = "warning", scope = "recipe",
    says = "burnishing comes after the last abrasive that cuts",
    basis = "burnish between or after guard coats", status = "common practice",
    help = "move it behind the last abrasive",
    bad = [[
      burnish "shine" { grit = 3000 },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      burnish "shine" { grit = 3000 },
    ]],
    check = chain.each({ burnish = true }, check_burnish),
  },
  {
    id = "wait-first", level = "warning", scope = "recipe",
    says = "a recipe does not begin with a wait",
    basis = "there is nothing to wait for", status = "computed",
    help = "take it out",
    bad = [[
      wait "first" { time = "1 h" },
      hone "100" { grit = 100, bond = "resin", passes = 6 },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      wait "then" { time = "1 h" },
    ]],
    check = check_pause,
  },
  {
    id = "finish-further", level = "warning", scope = "recipe",
    says = "the chain does not go far beyond the appearance promised",
    basis = "flat ends below 100, satin at 100-400, by the older chart; with room above",
    status = "common practice",
    help = "promise what it gives, or leave the finest steps out",
    bad = [[
      finish = { appearance = "flat" },
      hone "50" { grit = 50, bond = "resin" },
      hone "80" { grit = 80, bond = "resin" },
      hone "100" { grit = 100, bond = "resin" },
      hone "150" { grit = 150, bond = "resin" },
      hone "200" { grit = 200, bond = "resin" },
      hone "400" { grit = 400, bond = "resin" },
      check "sheen" { measure = "image clarity", want = at_least(10), hold = true },
    ]],
    good = [[
      finish = { appearance = "satin" },
      hone "50" { grit = 50, bond = "resin" },
      hone "80" { grit = 80, bond = "resin" },
      hone "100" { grit = 100, bond = "resin" },
      hone "150" { grit = 150, bond = "resin" },
      hone "200" { grit = 200, bond = "resin" },
      check "sheen" { measure = "image clarity", want = at_least(10), hold = true },
    ]],
    check = check_further,
  },
  {
    id = "promise-agree", level = "warning", scope = "recipe",
    says = "the gloss and the appearance promised go together",
    basis = "gloss bands of the older chart of appearance levels, with room on both sides",
    status = "common practice",
    help = "change one of the two",
    bad = [[
      finish = { appearance = "satin", gloss = at_least(4) },
      hone "50" { grit = 50, bond = "resin" },
      hone "80" { grit = 80, bond = "resin" },
      hone "100" { grit = 100, bond = "resin" },
      hone "150" { grit = 150, bond = "resin" },
      hone "200" { grit = 200, bond = "resin" },
      check "sheen" { measure = "image clarity", want = at_least(10), hold = true },
    ]],
    good = [[
      finish = { appearance = "satin" },
      hone "50" { grit = 50, bond = "resin" },
      hone "80" { grit = 80, bond = "resin" },
      hone "100" { grit = 100, bond = "resin" },
      hone "150" { grit = 150, bond = "resin" },
      hone "200" { grit = 200, bond = "resin" },
      check "sheen" { measure = "image clarity", want = at_least(10), hold = true },
    ]],
    check = check_agree,
  },
  {
    id = "edges-match", level = "warning", scope = "recipe",
    says = "edges are worked in every abrasive step or in none",
    basis = "finish each edge step before or with the matching field step", status = "common practice",
    help = "give all steps the same `edges`",
    bad = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6, edges = false },
    ]],
    good = [[
      hone "100" { grit = 100, bond = "resin", passes = 6 },
      hone "200" { grit = 200, bond = "resin", passes = 6 },
    ]],
    check = check_edges,
  },
}
