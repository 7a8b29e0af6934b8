-- four_step.lua BUILD - a chain as the trade runs it and what it is known to give. Common practice, no source: a
-- wet chain of 400, 800, 1500 and 3000, about ten slow passes each with about two inches of overlap, slurry taken
-- up and pads rinsed at once, densifier after the first step, the finest pad once more dry on a burnisher, takes
-- the gloss at 60 degrees from under 10 to the 70s.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local READ_FROM, READ_TO = 70, 79

local sh = shell.new(build, "outside")
sh:copy "recipes/methods/four_step.lua"

sh:test("the chain as the trade runs it has no error", function()
  local text, status = sh:run "validate four_step.lua"
  shell.same(status, 0, text)
  shell.lacks(text, "error")
end)

-- Promising what no floor can give makes validation say what the chain gives.
sh:test("the gloss that is read is within what is expected", function()
  sh:write("promise.lua", 'return tailor(require "four_step", "too much") { finish = { gloss = at_least(200) } }\n')
  local text = sh:run "validate promise.lua"
  local low, high = text:match("this chain gives about (%d+) to (%d+)")
  assert(low, text)
  assert(tonumber(low) <= READ_FROM and tonumber(high) >= READ_TO, ("expected %s to %s"):format(low, high))
end)

sh:finish()
