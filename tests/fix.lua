-- fix.lua BUILD - `validate --fix` and `--diff`: what is certain is changed, what is not is shown, all else is left alone.
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
  { "one mistake behind another", 'hone "200" { grit: 200 bond = “resn” },', 'hone "200" { grit = 200, bond = "resin" },' },
}

-- What must only be shown, and the line that is proposed.
local DOUBTFUL = {
  { "a bare number", 'hone "200" { grit = 200, bond = "resin", overlap = 3 },',
    'hone "200" { grit = 200, bond = "resin", overlap = "3 in" },' },
  { "a window the wrong way round", 'hone "200" { grit = 200, bond = "resin" }, densify "d" { with = "lithium silicate", '
    .. 'spread = between("650 sqft/gal", "450 sqft/gal") },', 'hone "200" { grit = 200, bond = "resin" }, densify "d" { '
    .. 'with = "lithium silicate", spread = between("450 sqft/gal", "650 sqft/gal") },' },
  { "a field two letters off", 'hone "200" { grit = 200, bond = "resin", ovelrapp = "3 in" },',
    'hone "200" { grit = 200, bond = "resin", overlap = "3 in" },' },
  { "a field that is there already", 'hone "200" { grit = 200, bond = "resin", passes = 4, pases = 5 },',
    'hone "200" { grit = 200, bond = "resin", passes = 4, passes = 5 },' },
}

-- What has no fix at all.
local HOPELESS = {
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
