-- compare.lua BUILD - `gritwork compare`: what differs between two recipes, a recipe and its parent, two jobs.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local schema = require "schema"
local shell = require "shell"

local sh = shell.new(build, "compare")
local same, holds, lacks = shell.same, shell.holds, shell.lacks

local BASE = [[
return recipe "base" {
  finish = { exposure = "cream" },
  hone "100" { grit = 100, bond = "resin", passes = param("opening", 6, between(3, 9)) },
  hone "200" { grit = 200, bond = "resin", passes = 6, overlap = "3 in" },
  clean "wash" { with = "water" },
  polish "400" { grit = 400, bond = "resin", passes = 5 },
}
]]

sh:write(".gritwork", "")
sh:write("base.lua", BASE)

local function tailored(overrides) return 'return tailor(require "base", "other") {\n' .. overrides .. "\n}\n" end

local function changes_of(overrides)
  sh:write("other.lua", tailored(overrides))
  local recipes = json.read((sh:run("compare --json other.lua"))).recipes
  local lines = {}
  for i, c in ipairs(recipes.changes) do
    lines[i] = ("%s %s %s: %s -> %s (%s, %s)"):format(c.kind, c.step, c.field or "-", c.was or "-", c.now or "-",
      c.was_at or "-", c.now_at or "-")
  end
  return table.concat(lines, "\n")
end

-- What a tailoring does, and the changes that it comes to.
local TAILORINGS = {
  { "nothing", "", "" },
  { "a changed field", 'change "200" { passes = 8 },',
    'changed hone "200" passes: 6 -> 8 (base.lua:4:53, other.lua:2:25)' },
  { "a field that was not written", 'change "wash" { dry = "1 h" },',
    'changed clean "wash" dry: not said -> at least 1 h (base.lua:5:9, other.lua:2:23)' },
  { "a default written over", 'change "100" { overlap = "2 in", edges = false },',
    'changed hone "100" overlap: not said -> 2 in (50.8 mm) (base.lua:3:8, other.lua:2:26)\n'
      .. 'changed hone "100" edges: true -> false (base.lua:3:8, other.lua:2:42)' },
  { "the same value written again", 'change "200" { passes = 6 },', "" },
  { "a parameter set", "set = { opening = 8 },", 'changed hone "100" passes: 6 -> 8 (base.lua:3:70, other.lua:2:19)' },
  { "a step added", 'after "wash" { wait "night" { time = "8 h" } },', "added wait \"night\" -: - -> - (-, other.lua:2:21)" },
  { "a step dropped", 'drop "200",', 'dropped hone "200" -: - -> - (base.lua:4:8, -)' },
  { "a step renamed", 'rename("200", "fine"),', 'renamed hone "fine" -: 200 -> fine (base.lua:4:8, other.lua:2:1)' },
  { "a step renamed and changed", 'rename("200", "fine"), change "fine" { passes = 7 },',
    'renamed hone "fine" -: 200 -> fine (base.lua:4:8, other.lua:2:1)\n'
      .. 'changed hone "fine" passes: 6 -> 7 (base.lua:4:53, other.lua:2:49)' },
  { "a step put elsewhere", 'drop "wash", after "400" { clean "wash" { with = "water" } },',
    'moved clean "wash" -: - -> - (base.lua:5:9, other.lua:2:34)' },
  { "a step replaced", 'replace "wash" { clean "vacuum" { with = "vacuum" } },',
    'added clean "vacuum" -: - -> - (-, other.lua:2:24)\ndropped clean "wash" -: - -> - (base.lua:5:9, -)' },
  { "another word of the same name", 'replace "400" { hone "400" { grit = 400, bond = "resin", passes = 5, edge_rate = "50 ft/h" } },',
    'changed hone "400" word: polish -> hone (base.lua:6:3, other.lua:2:17)' },
  { "a promise", 'finish = { exposure = "fine aggregate" },',
    "changed finish exposure: cream -> fine aggregate (base.lua:2:25, other.lua:2:23)" },
}

for _, case in ipairs(TAILORINGS) do
  sh:test("it tells of " .. case[1], function()
    local got = changes_of(case[2])
    if case[3] == "" then same(got, "") else holds(got .. "\n", case[3] .. "\n") end
  end)
end

sh:test("it counts what a small tailoring changes, and no more", function()
  for _, case in ipairs(TAILORINGS) do
    local _, wanted = case[3]:gsub("[^\n]+", "")
    local _, got = changes_of(case[2]):gsub("[^\n]+", "")
    same(got, wanted, case[1])
  end
end)

sh:test("two recipes that share nothing are compared by the names of their steps", function()
  sh:write("other.lua", BASE:gsub("passes = 5", "passes = 4"):gsub('"base"', '"copy"'))
  local text, status = sh:run("compare base.lua other.lua")
  same(status, 0)
  same(text, "WAS      base, base.lua:1:8\nNOW      copy, other.lua:1:8\n" .. ("="):rep(80) .. "\n"
    .. 'changed  polish "400": passes\n         was 5 at base.lua:6:55\n         now 4 at other.lua:6:55\n\nFINDINGS  1 stayed\n' .. ("-"):rep(80)
    .. '\npolish "400"\nstayed   warning[dry-on-wet]: 400 runs dry on the wet floor that wash leaves at\n'
    .. "         other.lua:6:10\n")
end)

local function fates_of(arguments)
  local data, lines = json.read((sh:run("compare --json " .. arguments))), {}
  for i, f in ipairs(data.findings) do
    lines[i] = ("%s %s at %s"):format(f.fate, f.code, f.about == json.null and "the whole" or f.about)
    assert((f.was == json.null) == (f.fate == "came") and (f.now == json.null) == (f.fate == "went"), lines[i])
  end
  return table.concat(lines, "\n")
end

local WET = [[
return recipe "wet" {
  finish = { gloss = at_least(8) },
  hone "100" { grit = 100, bond = "resin", passes = 6, wet = true, care = "rinse" },
  collect "slurry" { within = "20 min" },
  hone "400" { grit = 400, bond = "resin", passes = 6, wet = true },
  collect "slurry 400" { within = "30 min" },
  hone "500" { grit = 500, bond = "resin", passes = 6, wet = true },
  collect "slurry 500" { within = "8 min" },
}
]]

sh:test("findings are told step by step: what came, what went, what stayed", function()
  sh:write("wet.lua", WET)
  sh:write("mended.lua", 'return tailor(require "wet", "mended") {\n  rename("400", "fine"), drop "500", drop "slurry 500",\n'
    .. '  change "fine" { grit = 500, care = "rinse" }, change "slurry 400" { within = "40 min" },\n'
    .. '  after "slurry 400" { hone "1000" { grit = 1000, bond = "resin", passes = 6 } },\n}\n')
  same(fates_of "mended.lua", [[
stayed finish-read at the whole
stayed slurry-soon at collect "slurry"
went tool-care at hone "fine"
stayed grit-step at hone "fine"
stayed slurry-soon at collect "slurry 400"
came dry-on-wet at hone "1000"
came wet-alike at hone "1000"
went tool-care at hone "500"]])
end)

sh:test("one that stayed is told once, unless its words changed", function()
  local text = sh:run("compare mended.lua")
  holds(text, "\nFINDINGS  2 came  2 went  4 stayed\n")
  holds(text, 'collect "slurry"\nstayed   warning[slurry-soon]: slurry of 100 may dry before it is taken up\n'
    .. "         within 20 min at wet.lua:4:31\n")
  holds(text, "stayed   was warning[slurry-soon]: slurry of 400 may dry")
  holds(text, "         now warning[slurry-soon]: slurry of fine may dry")
  holds(text, "came     warning[dry-on-wet]: 1000 runs dry on the wet floor that fine leaves at\n         mended.lua:4:29\n")
end)

sh:test("two that are sound tell of no findings", function()
  sh:write("sound.lua", 'return recipe "sound" { hone "100" { grit = 100, bond = "resin", passes = 6 } }\n')
  lacks((sh:run("compare sound.lua sound.lua")), "FINDINGS")
end)

local JOB = [[
return job "job" {
  units = "us", start = "2027-03-01 07:00", shifts = { day = { hours = "7:00 to 16:00" } },
  crew "operator" { count = 2, skills = { "any" }, shift = "day" },
  machine "planetary" { does = { "hone", "polish", "edges", "clean" }, width = "28 in" },
  prices = prices "book" { labour = { operator = "$30/h" }, machines = { planetary = { hour = "$20/h" } },
    tools = { ["resin 100"] = { price = "$95", life = "9000 sqft/set" }, ["resin 200"] = { price = "$95", life = "9000 sqft/set" },
      ["resin 400"] = { price = "$95", life = "9000 sqft/set" } } },
  area "hall" { recipe = require "base", length = "20 ft", width = "20 ft" },
  area "den" { recipe = require "base", length = "30 ft", width = "20 ft" },
}
]]

local function check_schema(text) same(schema.judge(sh, "docs/schema/compare.json", text), "valid") end

local function totals(arguments)
  local text, status = sh:run("compare --json --effort=1 " .. arguments)
  same(status, 0, text)
  check_schema(text)
  return json.read(text).jobs
end

local function cost_of(file) return json.read((sh:run("cost --json --effort=1 " .. file .. " 2>/dev/null"))) end

sh:write("job.lua", JOB)
sh:write("more.lua", tailored 'change "200" { passes = 12 },')
sh:write("job_more.lua", (JOB:gsub('recipe = require "base", length = "30 ft"', 'recipe = require "more", length = "30 ft"')))

sh:test("a job with one recipe in an area and with the other costs what such jobs cost", function()
  local jobs = totals "--job=job.lua --area=den more.lua"
  same(jobs.was.price, cost_of("job.lua").price)
  same(jobs.now.price, cost_of("job_more.lua").price)
  assert(jobs.now.price > jobs.was.price and jobs.now.person_h > jobs.was.person_h)
  same(jobs.now.areas[1].recipe, "base")
  same(jobs.now.areas[2].recipe, "other")
end)

sh:test("without an area, every area gets it", function()
  for _, area in ipairs(totals("--job=job.lua base.lua more.lua").now.areas) do same(area.recipe, "other") end
end)

sh:test("the money by kind adds up to the price", function()
  for _, side in pairs(totals "--job=job.lua more.lua") do
    local sum = 0
    for _, amount in pairs(side.money) do sum = sum + math.floor(amount * 100 + 0.5) end
    same(sum, math.floor(side.price * 100 + 0.5))
  end
end)

sh:test("two jobs: areas that came, went and changed, and what each comes to", function()
  local text, status = sh:run("compare --effort=1 job.lua job_more.lua")
  same(status, 0)
  holds(text, 'was      area "den", 600 sqft, base\nnow      area "den", 600 sqft, other\n')
  lacks(text, '"hall"')
  local jobs = totals "job.lua job_more.lua"
  same(jobs.was.price, cost_of("job.lua").price)
  same(jobs.now.price, cost_of("job_more.lua").price)
end)

sh:test("a job with itself has no difference", function()
  local text = sh:run("compare --effort=1 job.lua job.lua")
  lacks(text, "+")
  lacks(text, "area ")
end)

sh:test("no line is wider than asked for", function()
  for _, width in ipairs { 60, 80, 120 } do
    for line in sh:run(("compare --effort=1 --width=%d --job=job.lua more.lua"):format(width)):gmatch("[^\n]+") do
      assert(#line <= width, line)
    end
  end
end)

sh:test("the JSON of recipes keeps to its schema", function()
  sh:write("other.lua", tailored 'drop "200", rename("400", "last"), change "last" { overlap = "3 in" },')
  check_schema((sh:run("compare --json other.lua")))
end)

local REFUSED = {
  { "base.lua", "this is no tailored recipe", 1 },
  { "job.lua base.lua", "a job is compared with a job; this is none", 1 },
  { "base.lua job.lua", "the second file is not a recipe", 1 },
  { "base.lua missing.lua", "cannot read missing.lua", 3 },
  { "--job=job.lua --area=attic more.lua", "no area of the job is called `attic`", 1 },
  { "--job=base.lua more.lua", "--job needs a job", 1 },
  { "--job=missing.lua more.lua", "cannot read missing.lua", 3 },
}

for _, case in ipairs(REFUSED) do
  sh:test("it refuses " .. case[1], function()
    local text, status = sh:run("compare " .. case[1])
    holds(text, case[2])
    same(status, case[3])
  end)
end

sh:finish()
