-- fix.lua BUILD - `validate --fix` and `--diff`: what is certain is changed, what is not is shown, all else is left
-- alone.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "fix")
local same, holds, lacks = shell.same, shell.holds, shell.lacks

local function recipe(step) return ('return recipe "case" {\n  %s\n}\n'):format(step) end

-- What stands in a recipe, and what must stand there after --fix.
local CERTAIN = {
  { "a word", 'hne "200" { grit = 200, bond = "resin" },', 'hone "200" { grit = 200, bond = "resin" },' },
  { "a field", 'hone "200" { grit = 200, bond = "resin", pases = 4 },', 'hone "200" { grit = 200, bond = "resin", passes = 4 },' },
  { "a field of a table within", 'suits = { hardnes = between(3, 6) }, hone "200" { grit = 200, bond = "resin" },',
    'suits = { hardness = between(3, 6) }, hone "200" { grit = 200, bond = "resin" },' },
  { "a choice", 'hone "200" { grit = 200, bond = "resn" },', 'hone "200" { grit = 200, bond = "resin" },' },
  { "a choice in single quotes", "hone '200' { grit = 200, bond = 'resn' },", "hone '200' { grit = 200, bond = 'resin' }," },
  { "a comma", 'hone "200" { grit = 200 bond = "resin" },', 'hone "200" { grit = 200, bond = "resin" },' },
  { "a colon", 'hone "200" { grit: 200, bond = "resin" },', 'hone "200" { grit = 200, bond = "resin" },' },
  { "curly quotes", 'hone "200" { grit = 200, bond = “resin” },', 'hone "200" { grit = 200, bond = "resin" },' },
  { "capitals", 'hone "200" { grit = 200, bond = "RESIN" },', 'hone "200" { grit = 200, bond = "resin" },' },
  { "a number in quotes", 'hone "200" { grit = "200", bond = "resin" },', 'hone "200" { grit = 200, bond = "resin" },' },
  { "a flag in quotes", 'hone "200" { grit = 200, bond = "resin", edges = "yes" },',
    'hone "200" { grit = 200, bond = "resin", edges = true },' },
  { "a range in one text", 'hone "200" { grit = 200, bond = "resin" }, densify "d" { with = "lithium silicate", '
    .. 'spread = "450-650 sqft/gal" },', 'hone "200" { grit = 200, bond = "resin" }, densify "d" { '
    .. 'with = "lithium silicate", spread = between("450 sqft/gal", "650 sqft/gal") },' },
  { "a rule's name in a waiver", 'waive "grit-stp" { reason = "so", by = "me" }, hone "200" { grit = 200, bond = "resin" },',
    'waive "grit-step" { reason = "so", by = "me" }, hone "200" { grit = 200, bond = "resin" },' },
  { "one mistake behind another", 'hone "200" { grit: 200 bond = “resn” },', 'hone "200" { grit = 200, bond = "resin" },' },
}

-- What must only be shown, and the line that is proposed.
local DOUBTFUL = {
  { "a bare number", 'hone "200" { grit = 200, bond = "resin", overlap = 3 },',
    'hone "200" { grit = 200, bond = "resin", overlap = "3 in" },' },
  { "a window the wrong way round", 'hone "200" { grit = 200, bond = "resin" }, densify "d" { with = "lithium silicate", '
    .. 'spread = between("650 sqft/gal", "450 sqft/gal") },', 'hone "200" { grit = 200, bond = "resin" }, densify "d" { '
    .. 'with = "lithium silicate", spread = between("450 sqft/gal", "650 sqft/gal") },' },
  { "a number in quotes whose unit is missing", 'hone "200" { grit = 200, bond = "resin", overlap = "3" },',
    'hone "200" { grit = 200, bond = "resin", overlap = "3 in" },' },
  { "a unit misspelt", 'hone "200" { grit = 200, bond = "resin", overlap = "3 inchs" },',
    'hone "200" { grit = 200, bond = "resin", overlap = "3 inch" },' },
  { "the beginning of a name", 'hone "200" { grit = 200, bond = "resin" }, densify "d" { with = "lithium", spread = "500 '
    .. 'sqft/gal" },', 'hone "200" { grit = 200, bond = "resin" }, densify "d" { with = "lithium silicate", spread = "500 '
    .. 'sqft/gal" },' },
  { "a grit that is missing, where the step is called by it", 'hone "200" { bond = "resin" },',
    'hone "200" { bond = "resin", grit = 200 },' },
  { "a bond that is missing, where all others say the same", 'hone "100" { grit = 100, bond = "resin" }, hone "200" '
    .. '{ grit = 200 },', 'hone "100" { grit = 100, bond = "resin" }, hone "200" { grit = 200, bond = "resin" },' },
  { "a field two letters off", 'hone "200" { grit = 200, bond = "resin", ovelrapp = "3 in" },',
    'hone "200" { grit = 200, bond = "resin", overlap = "3 in" },' },
  { "a field that is there already", 'hone "200" { grit = 200, bond = "resin", passes = 4, pases = 5 },',
    'hone "200" { grit = 200, bond = "resin", passes = 4, passes = 5 },' },
}

-- What has no fix at all.
local HOPELESS = {
  { "a bond that is missing, where others differ", 'hone "100" { grit = 100, bond = "resin" }, hone "120" { grit = 120, '
    .. 'bond = "transitional" }, hone "a" { grit = 200 },' },
  { "a number in quotes that a name stands for", 'hone "200" { grit = tostring(200), bond = "resin" },' },
  { "a number in a name", 'check "gloss" { measure = "gloss 65" }, hone "200" { grit = 200, bond = "resin" },' },
  { "a name that is near to several", 'hone "200" { grit = 200, bond = "resin", xate = "3 ft/h" },' },
  { "a bare number in a variable", 'hone "200" { grit = 200, bond = "resin", overlap = 1 + 2 },' },
  { "a missing field", 'hone "200" { grit = 200 },' },
  { "the wrong dimension", 'hone "200" { grit = 200, bond = "resin", overlap = "2 h" },' },
}

-- The first line of what is found, without its place.
local function first_finding(file) return (sh:run("validate --short " .. file)):match(": (%l+%[[^\n]*)") end

for _, case in ipairs(CERTAIN) do
  sh:test("it fixes " .. case[1], function()
    sh:write("a.lua", recipe(case[2]))
    holds((sh:run("validate --fix a.lua")), "a.lua: fixed ")
    same(sh:read("a.lua"), recipe(case[3]))
    lacks(first_finding("a.lua") or "", "did you mean")
    lacks(first_finding("a.lua") or "", "[syntax]")
  end)
end

for _, case in ipairs(DOUBTFUL) do
  sh:test("it shows but does not do " .. case[1], function()
    sh:write("a.lua", recipe(case[2]))
    local before = first_finding("a.lua")
    local text, status = sh:run("validate --fix a.lua")
    holds(text, "not certain, and not done:")
    holds(text, "\n-  " .. case[2] .. "\n+  " .. case[3] .. "\n")
    same(sh:read("a.lua"), recipe(case[2]))
    same(status, 1)
    sh:write("a.lua", recipe(case[3]))
    assert(first_finding("a.lua") ~= before, "the proposal is no better")
  end)
end

for _, case in ipairs(HOPELESS) do
  sh:test("it leaves alone " .. case[1], function()
    sh:write("a.lua", recipe(case[2]))
    local text = sh:run("validate --fix a.lua")
    lacks(text, "@@")
    lacks(text, "fixed")
    same(sh:read("a.lua"), recipe(case[2]))
  end)
end

-- Whole files, and what stands there after --fix.
local WHOLE = {
  { "a document that is not returned", 'recipe "x" {\n  hone "200" { grit = 200, bond = "resin" },\n}\n',
    'return recipe "x" {\n  hone "200" { grit = 200, bond = "resin" },\n}\n' },
  { "one that has a name", 'local r = recipe "x" { hone "200" { grit = 200, bond = "resin" } }\r\n\r\n',
    'local r = recipe "x" { hone "200" { grit = 200, bond = "resin" } }\r\n\r\nreturn r\n' },
  { "one that has a name, in a line without an end", 'local r = recipe "x" { hone "200" { grit = 200, bond = "resin" } }',
    'local r = recipe "x" { hone "200" { grit = 200, bond = "resin" } }\nreturn r\n' },
  { "several mistakes in lines that end with CR and LF", 'return recipe "x" {\r\n  hne "200" {\r\n    grit: "200",\r\n'
    .. '    bond = "resn"\r\n  }\r\n}\r\n', 'return recipe "x" {\r\n  hone "200" {\r\n    grit = 200,\r\n'
    .. '    bond = "resin"\r\n  }\r\n}\r\n' },
}

for _, case in ipairs(WHOLE) do
  sh:test("it fixes " .. case[1] .. ", and a second time changes nothing", function()
    sh:write("a.lua", case[2])
    holds((sh:run("validate --fix a.lua")), "a.lua: fixed ")
    same(sh:read("a.lua"), case[3])
    lacks((sh:run("validate --fix a.lua")), "fixed")
    same(sh:read("a.lua"), case[3])
  end)
end

local CREW = [[
return job "case" {
  units = "us",
  start = "March 1, 2027 7 am",
  shifts = { day = { hours = "7am - 4:30 pm" } },
  site = { closed = { "2027/3/7", "8 March 2027" } },
  crew "operator" { count = 2, skills = { "any" } },
  machine "planetary" { does = { "hone", "edges" }, width = "28 in" },
  area "hall" {
    recipe = recipe "r" { hone "200" { grit = 200, bond = "resin" } },
    length = "20 ft", width = "20 ft",
  },
  alternate "other" { recipe = recipe "s" { hone "100" { grit = 100, bond = "resin" } } },
}
]]

sh:test("a job's dates, hours, only shift and only area are certain", function()
  sh:write("a.lua", CREW)
  holds((sh:run("validate --fix a.lua")), "a.lua: fixed 6 findings\n")
  local text = sh:read("a.lua")
  for _, line in ipairs { '\n  start = "2027-03-01 07:00",\n', '{ hours = "07:00 to 16:30" }', '{ "2027-03-07", "2027-03-08" }',
    'crew "operator" { count = 2, skills = { "any" }, shift = "day" },\n',
    'bond = "resin" } }, area = "hall" },\n' } do holds(text, line) end
end)

sh:test("a date that may be two is not changed, nor a shift of several", function()
  sh:write("a.lua", CREW:gsub("March 1, 2027 7 am", "3/1/2027 7:00"):gsub("shifts = { ", '%0late = { hours = "14:00 to 22:00" }, '))
  sh:run("validate --fix a.lua")
  local text = sh:read("a.lua")
  holds(text, 'start = "3/1/2027 7:00"')
  lacks(text, "shift = ")
end)

local WET = [[
return recipe "wet" {
  hone "100" {
    grit = 100, -- coarse
    bond = "resin",
    wet = true -- on a short hose
  },
  hone "200" { grit = 200, bond = "resin", wet = true },
}
]]

sh:test("several fields and steps are put in at once, as the text is laid out", function()
  sh:write("a.lua", WET)
  sh:run("validate --diff a.lua > a.diff")
  if not sh:sh("command -v patch"):find("patch") then return end
  sh:sh("patch -s < a.diff")
  same(sh:read("a.lua"), [[
return recipe "wet" {
  hone "100" {
    grit = 100, -- coarse
    bond = "resin",
    wet = true, -- on a short hose
    care = "rinse the tools before the slurry sets"
  },
  collect "slurry after 100" { within = "8 min" },
  hone "200" { grit = 200, bond = "resin", wet = true, care = "rinse the tools before the slurry sets" },
  collect "slurry after 200" { within = "8 min" },
}
]])
  lacks((sh:run("validate --short a.lua")), "slurry")
  lacks((sh:run("validate --diff a.lua")), "collect")
end)

sh:test("a waiver that covers nothing is shown without", function()
  sh:write("a.lua", recipe 'waive "grit-step" { reason = "so", by = "me" },\n  hone "200" { grit = 200, bond = "resin" },')
  local text, status = sh:run("validate --diff a.lua")
  holds(text, '\n-  waive "grit-step" { reason = "so", by = "me" },\n   hone')
  same(status, 0)
end)

sh:test("what a tailored recipe breaks is not mended in its parent", function()
  sh:write("parent.lua", 'return recipe "p" {\n  hone "100" { grit = 100, bond = "resin", wet = true, care = "rinse" },\n'
    .. '  collect "slurry" { within = "8 min" },\n}\n')
  sh:write(".gritwork", "")
  sh:write("child.lua", 'return tailor(require "parent", "c") { drop "slurry" }\n')
  holds((sh:run("validate --short child.lua")), "[slurry-collect]")
  lacks((sh:run("validate --diff child.lua")), "collect")
  sh:write("child.lua", 'return tailor(require "parent", "c") {\n  after "slurry" { hone "200" { grit = 200, bond = "resin", '
    .. 'wet = true, care = "rinse" } },\n}\n')
  holds((sh:run("validate --diff child.lua")), 'care = "rinse" },\n+                   collect "slurry after 200" { within = "8 min" } },\n')
end)

local MIXED = recipe('hne "200" { grit = 200, bond = "resin", overlap = 3 },')

sh:test("--diff shows both kinds and changes nothing, with or without --fix", function()
  for _, options in ipairs { "--diff", "--fix --diff" } do
    sh:write("a.lua", MIXED)
    local text, status = sh:run("validate " .. options .. " a.lua")
    holds(text, "certain, and done by --fix:\n\n--- a.lua\n+++ a.lua\n")
    holds(text, "\n+  hone \"200\" { grit = 200, bond = \"resin\", overlap = 3 },\n")
    holds(text, "not certain:\n\n--- a.lua\n+++ a.lua\n")
    holds(text, "\n+  hone \"200\" { grit = 200, bond = \"resin\", overlap = \"3 in\" },\n")
    same(status, 1)
    same(sh:read("a.lua"), MIXED)
  end
end)

sh:test("--diff says of a file that it cannot be read", function()
  local text, status = sh:run("validate --diff missing.lua")
  holds(text, "cannot read missing.lua")
  same(status, 3)
end)

sh:test("a diff can be applied by patch", function()
  sh:write("a.lua", MIXED)
  if not sh:sh("command -v patch"):find("patch") then return end
  sh:run("validate --diff a.lua > a.diff")
  sh:sh("patch -s < a.diff")
  same(sh:read("a.lua"), recipe('hone "200" { grit = 200, bond = "resin", overlap = "3 in" },'))
end)

sh:test("a sound file is not touched", function()
  sh:write("a.lua", recipe('hone "200" { grit = 200, bond = "resin" },'))
  sh:sh("touch -d '2001-02-03 04:05' a.lua")
  local text, status = sh:run("validate --fix a.lua")
  same(text, "a.lua: nothing found\n")
  same(status, 0)
  holds((sh:sh("ls -l --time-style=long-iso a.lua")), "2001-02-03 04:05")
end)

sh:test("modules that the file requires are fixed too, each once", function()
  sh:write(".gritwork", "")
  sh:write("house/base.lua", recipe('hone "200" { grit = 200, bond = "resn" },'))
  for _, name in ipairs { "one.lua", "two.lua" } do
    sh:write(name, 'return tailor(require "house.base", "case") { change "200" { pases = 3 } }\n')
  end
  local text, status = sh:run("validate --fix one.lua two.lua")
  same(status, 0)
  holds(text, "house/base.lua: fixed 1 finding\n")
  holds(text, "one.lua: fixed 1 finding\n")
  holds(text, "two.lua: fixed 1 finding\n")
  holds(sh:read("house/base.lua"), '"resin"')
  holds(sh:read("two.lua"), "passes")
end)

sh:test("permissions stay, and no other file appears", function()
  sh:sh("rm -rf alone && mkdir alone")
  sh:write("alone/a.lua", MIXED)
  sh:sh("chmod 640 alone/a.lua")
  sh:run("validate --fix alone/a.lua")
  holds((sh:sh("ls -lA alone")), "-rw-r----- ")
  same((sh:sh("ls -A alone")), "a.lua\n")
end)

sh:test("a symbolic link is left as it is, and that is said", function()
  sh:write("real.lua", MIXED)
  sh:sh("ln -sf real.lua link.lua")
  local text, status = sh:run("validate --fix link.lua")
  holds(text, "link.lua was left as it is: outside the project folder, or behind a symbolic link")
  same(status, 3)
  same(sh:read("real.lua"), MIXED)
end)

sh:test("standard input is checked and not changed", function()
  local text, status = sh:sh(("printf %%s %s | %s validate --fix -"):format(shell.quote(MIXED), shell.quote(sh.gritwork)))
  holds(text, "did you mean `hone`?")
  lacks(text, "fixed")
  same(status, 1)
end)

sh:test("JSON after fixing has only what is left", function()
  sh:write("a.lua", MIXED)
  local text = sh:run("validate --fix --json a.lua")
  lacks(text, "is not a word")
  holds(text, '"text": "\\"3 in\\""')
  holds(sh:read("a.lua"), "hone")
end)

sh:finish()
