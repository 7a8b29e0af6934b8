-- four_step.lua BUILD - a chain as the trade runs it and what it is known to give. Common practice, no source: a wet chain
-- of 400, 800, 1500 and 3000, about ten slow passes each with about two inches of overlap, slurry taken up and pads
-- rinsed at once, densifier after the first step, the finest pad once more dry on a burnisher, takes the gloss at 60
-- degrees from under 10 to the 70s.
local build = arg[1]
local READ_FROM, READ_TO = 70, 79

local function output(command)
  local pipe = io.popen(command .. " 2>&1")
  local text = pipe:read("a")
  local _, _, status = pipe:close()
  return text, status
end

local passed, failed = 0, 0

local function check(condition, what)
  if condition then passed = passed + 1 else failed = failed + 1 print(what) end
end

local text, status = output(build .. "/gritwork validate recipes/methods/four_step.lua")
check(status == 0 and not text:find("error"), text)

-- Promising what no floor can give makes validation say what the chain gives.
local folder = build .. "/tests/four_step"
os.execute(("mkdir -p %s && cp recipes/methods/four_step.lua %s/"):format(folder, folder))
local file = assert(io.open(folder .. "/promise.lua", "w"))
file:write('return tailor(require "four_step", "too much") { finish = { gloss = at_least(200) } }\n')
file:close()
text = output(("%s/gritwork validate %s/promise.lua"):format(build, folder))
local low, high = text:match("this chain gives about (%d+) to (%d+)")
check(low and tonumber(low) <= READ_FROM and tonumber(high) >= READ_TO,
  ("expected gloss %s to %s does not bracket %d to %d"):format(low, high, READ_FROM, READ_TO))

print(("outside: %d passed, %d failed"):format(passed, failed))
os.exit(failed == 0)
