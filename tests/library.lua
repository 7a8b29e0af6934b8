-- library.lua BUILD - the standard library read from a folder, as while working on it: what is wrong there is said.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "library")
local same, holds, lacks = shell.same, shell.holds, shell.lacks

sh:copy "stdlib"
sh:write(".gritwork", "")
sh:write("method.lua", [[
return recipe "method" {
  finish = { exposure = "cream" },
  hone "100" { grit = 100, bond = "resin", passes = 6 },
  wait "set" { time = "1 h" },
}
]])

-- One family with just this rule, which finds fault with each step that it is shown.
local function with_words(words)
  sh:write("stdlib/rules/figures.lua", [[
return { { id = "house", level = "warning", scope = "step", words = ]] .. words .. [[, says = "x", basis = "y",
  status = "common practice", help = "z", bad = "", good = "",
  check = function(step, report) report { message = "seen: " .. step.name } end } }
]])
  return sh:run "validate --stdlib=stdlib method.lua"
end

sh:test("a rule is shown the steps of its words, and no others", function()
  local text, status = with_words "{ hone = true }"
  holds(text, "warning[house]: seen: 100")
  lacks(text, "seen: set")
  same(status, 0)
end)

sh:test("a list of words is refused, with the form that is meant", function()
  local text, status = with_words '{ "hone" }'
  holds(text, "error[rule]: `words` of rule `house` in rules/figures.lua is a list\n"
    .. "  help: write words = { hone = true }")
  lacks(text, "warning[house]")
  same(status, 1)
end)

sh:finish()
