-- why.lua BUILD - `gritwork why FILE PATH`: where a value came from, through tailoring, parameters and defaults.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "why")
local same, holds, lacks = shell.same, shell.holds, shell.lacks

sh:write(".gritwork", "")
sh:write("base.lua", [[
return recipe "base" {
  finish = { exposure = "cream", gloss = at_least(8) },
  hone "100" { grit = 100, bond = "resin", passes = param("opening", 6, between(3, 9)) },
  hone "200" { grit = 200, bond = "resin", passes = 6, overlap = "3 in" },
  clean "wash" { with = "water" },
}
]])
sh:write("first.lua", [[
return tailor(require "base", "first") {
  set = { opening = 8 },
  finish = { gloss = at_least(9) },
  change "200" { overlap = "4 in" },
  rename("200", "two.hundred"),
  after "wash" { wait "overnight" { time = "8 h" } },
}
]])
sh:write("second.lua", [[
return tailor(require "first", "second") {
  set = { opening = 5 },
  change "two.hundred" { overlap = "5 in" },
}
]])
sh:write("job.lua", [[
return job "job" {
  units = "us", start = "2027-03-01 07:00", shifts = { day = { hours = "7:00 to 16:00" } },
  crew "operator" { skills = { "any" }, shift = "day" },
  machine "planetary" { does = { "hone", "edges", "clean" }, width = "28 in", overlap = "2 in" },
  prices = prices "book" { labour = { operator = "$30/h" }, margin = "18 %", machines = { planetary = { hour = "$20/h" } },
    tools = { ["resin 100"] = { price = "$95", life = "9000 sqft/set" },
      ["resin 200"] = { price = "$95", life = "9000 sqft/set" } } },
  area "hall" { recipe = require "base", length = "20 ft", width = "6 m", set = { opening = 4 } },
}
]])

local function why(arguments) return (sh:run("why " .. arguments .. " 2>/dev/null")) end

-- The sentences without their excerpts: "- written | base.lua:3:4".
local function sentences(text)
  local lines = {}
  for line in text:gmatch("[^\n]+") do
    local place = line:match("^  (%S+:%d+:%d+)$")
    if place then lines[#lines] = lines[#lines] .. " | " .. place
    elseif not line:find("^ +%d* | ") then lines[#lines + 1] = line end
  end
  return table.concat(lines, "\n")
end

local CASES = {
  { "a value that was written", "base.lua 200.passes", "`passes` of hone \"200\" = 6\n- passes over the same floor\n"
    .. "- written | base.lua:4:53" },
  { "a quantity in both systems", "base.lua 200.overlap", "= 3 in (76.2 mm)\n" },
  { "a default with its basis", "base.lua 200.wet", "= false\n- run with water\n"
    .. "- assumed, since nothing is written here: dry unless the recipe says wet | base.lua:4:8" },
  { "a value that nobody gave", "base.lua 200.travel", "= not said\n- walking speed; else the machine's own\n"
    .. "- not written here | base.lua:4:8" },
  { "a field of a table", "base.lua finish.gloss", "= at least 8\n- promised gloss at 60 degrees, GU\n- written | base.lua:2:42" },
  { "a parameter left alone", "base.lua 100.passes", "= 6\n- passes over the same floor\n"
    .. "- the default of parameter `opening` | base.lua:3:70" },
  { "a parameter set by a tailoring", "first.lua 100.passes", "= 8\n- passes over the same floor\n"
    .. "- set to 8 by tailor \"first\" | first.lua:2:21\n- instead of the default of parameter `opening` | base.lua:3:70" },
  { "a parameter set twice", "second.lua 100.passes", "- set to 5 by tailor \"second\" | second.lua:2:21\n"
    .. "- instead of 8 by tailor \"first\" | first.lua:2:21\n- instead of the default of parameter `opening` | base.lua:3:70" },
  { "a chain of changes to a renamed step", 'second.lua \'"two.hundred".overlap\'',
    "`overlap` of hone \"two.hundred\" = 5 in (127 mm)\n- overlap of neighbouring lanes; else the machine's own\n"
    .. "- written by change \"two.hundred\" of tailor \"second\" | second.lua:3:36\n"
    .. "- instead of \"4 in\" by change \"200\" of tailor \"first\" | first.lua:4:28\n"
    .. "- instead of \"3 in\" | base.lua:4:66\n"
    .. "- the step was renamed by rename \"200\" of tailor \"first\" | first.lua:5:3" },
  { "a table laid over another", "first.lua finish.gloss", "- written by tailor \"first\" | first.lua:3:22\n"
    .. "- instead of at_least(8) | base.lua:2:42" },
  { "what the upper table does not say", "second.lua finish.exposure", "= cream\n" },
  { "a step that an override brought", "second.lua overnight.time",
    "- the step was brought by after \"wash\" of tailor \"first\" | first.lua:6:9" },
  { "a size of an area", "job.lua area.hall.length", "= 20 ft (6.1 m)\n- of a rectangle\n- written | job.lua:8:51" },
  { "a machine's own value", "job.lua machine.planetary.overlap", "= 2 in (50.8 mm)\n" },
  { "a price", "job.lua 'prices.tools.resin 100.price'", "= $95\n- of a set\n- written | job.lua:6:41" },
  { "a price by a name of the user's", "job.lua prices.labour.operator", "= $30/h\n- wage by crew class\n" },
  { "a parameter set by an area", "job.lua area.hall.100.passes", "- set to 4 | job.lua:8:93\n"
    .. "- instead of the default of parameter `opening` | base.lua:3:70" },
  { "a value that is reckoned from others", "job.lua area.hall.edges", "= not said\n"
    .. "- walls and columns worked by hand; else the rectangle's outline\n- not written here | job.lua:8:8\n"
    .. "edges of area \"hall\" = 24.192 m (79.37 ft); computed: 2 x (length + width)\n"
    .. "  - length of area \"hall\" = 6.096 m (20 ft); written at job.lua:8:51\n"
    .. "  - width of area \"hall\" = 6 m; written at job.lua:8:68" },
}

for _, case in ipairs(CASES) do
  sh:test("it tells of " .. case[1], function() holds(sentences(why(case[2])), case[3]) end)
end

sh:test("each place is shown with its line", function()
  holds(why "base.lua 200.passes", "\n   4 |   hone \"200\" { grit = 200, bond = \"resin\", passes = 6, overlap = \"3 in...\n"
    .. "     |                                                     ^\n")
end)

sh:test("figures of a job are found by name as well", function()
  holds(why "job.lua price", "price = ")
  holds(why "job.lua LAB-op", "LAB-operator = ")
end)

local UNKNOWN = {
  { "base.lua 300.passes", "nothing in this file is called `300`" },
  { "base.lua 200.pases", "`200` has no `pases`\n  help: did you mean `passes`?" },
  { "base.lua wsh.with", "nothing in this file is called `wsh`\n  help: did you mean `wash`?" },
  { "base.lua 200", "`200` is more than one value\n  help: there are grit, system, bond," },
  { "base.lua finish", "`finish` is more than one value\n  help: there are exposure, appearance, gloss" },
  { "job.lua area.hal.length", "`area` has no `hal`\n  help: did you mean `hall`?" },
  { "job.lua prics", "nothing in this file is called `prics`\n  help: did you mean `prices` or `price`?" },
  { "base.lua 200..passes", "nothing in this file is called `200..passes`" },
  { "base.lua ''", "nothing in this file is called ``" },
}

for _, case in ipairs(UNKNOWN) do
  sh:test("it refuses " .. case[1], function()
    local text, status = sh:run("why " .. case[1])
    holds(text, "error[figure]: " .. case[2])
    same(status, 1)
  end)
end

sh:test("a value is explained in a document with faults, which are told too", function()
  sh:write("faulty.lua", [[return recipe "f" { hone "30" { grit = 30, bond = "resin" }, hone "800" { grit = 800, bond = "resin" } }]])
  local text, status = sh:run("why faulty.lua 800.grit")
  holds(text, "`grit` of hone \"800\" = 800\n")
  holds(text, "error[grit-step]")
  same(status, 1)
end)

-- A job without people, and with a field that there is not.
sh:write("faulty_job.lua", [[
return job "faulty" {
  units = "us", start = "2027-03-01 07:00", shifts = { day = { hours = "7:00 to 16:00" } }, hello = 1,
  machine "planetary" { does = { "hone", "edges" }, width = "28 in" },
  area "hall" { recipe = require "base", length = "20 ft", width = "6 m" },
}
]])

sh:test("of a job with faults no figure is known, and only the faults are told", function()
  for _, figure in ipairs { "price", "'price of hall'", "LAB-operator", "hall/100/field" } do
    local text, status = sh:run("why faulty_job.lua " .. figure)
    holds(text, "error[field]: `hello`")
    lacks(text, "error[figure]")
    same(status, 1)
  end
end)

sh:test("a path into a job with faults that leads nowhere is refused all the same", function()
  holds(sh:run "why faulty_job.lua area.hal.length", "error[figure]: `area` has no `hal`")
  holds(sh:run "why faulty.lua wsh.with", "error[figure]: nothing in this file is called `wsh`")
end)

sh:test("every value that is listed can be explained, by the path it is listed under", function()
  local count = 0
  for path, value in why("second.lua"):gmatch("([^\n]-) = ([^\n]*)\n") do
    local text = why("second.lua " .. shell.quote(path)):gsub("\n", " ")
    holds(text, "= " .. value)
    lacks(text, "not said")
    count = count + 1
  end
  assert(count > 25, count)
end)

sh:test("the list of a job holds its figures and its values", function()
  local text = why "job.lua"
  holds(text, "price\n")
  holds(text, "area.hall.length = 20 ft (6.1 m)\n")
  holds(text, "prices.margin = 18 %\n")
  holds(text, "area.hall.200.passes = 6\n")
end)

sh:finish()
