-- extremes.lua BUILD [all] - every figure of the shipped jobs, methods and price books put to its extremes, one at
-- a time.
--
-- Whatever a figure is, a run ends soon, with a schedule and a price or with a finding: never with a fault, an
-- endless text, or a number that is none. A sample by a fixed seed; with `all` each figure with each extreme (`make
-- extremes`).
local build, all = arg[1], arg[2] == "all"
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "extremes")
local SAMPLE = 40

-- In the place of a number's digits: in a text with a unit, and bare.
local QUANTITIES = { "0", "-1", "1e-300", "0.0000001", "100000", "1e9", "2147483648", "1e15", "9223372036854775807", "1e300" }
local NUMBERS = { "0", "-1", "0.5", "1e-300", "1000", "100000", "2147483648", "9223372036854775807", "1e300", "1/0", "0/0" }

sh:sh("cp -r " .. shell.quote(shell.read_all("realpath recipes"):match("[^\n]+")) .. "/. .")
local FILES = { "jobs/mill_annex.lua", "jobs/north_hall.lua", "methods/cream_wet.lua", "methods/re_polish.lua",
  "methods/salt_and_pepper_dyed.lua", "methods/salt_and_pepper.lua", "prices/house_us.lua", "prices/house_metric.lua" }
local JOBS = { "jobs/north_hall.lua", "jobs/mill_annex.lua" }
local COMMANDS = { "cost --effort=1 %s", "schedule --effort=1 --json %s", "schedule --effort=1 --ics %s", "sheet --effort=1 %s",
  "risk --effort=1 --trials=100 %s", "schedule --effort=1 --svg %s", "why --effort=1 %s price" }

-- The figures of a text: where their digits begin and end, and whether they stand in quotes. Remarks are left out.
local function figures_of(text)
  local list, at, quoted = {}, 1, false
  while at <= #text do
    local c = text:sub(at, at)
    if not quoted and text:sub(at, at + 1) == "--" then
      at = text:find("\n", at, true) or #text
    elseif c == '"' then
      quoted = not quoted
    elseif c:find("%d") and not text:sub(at - 1, at - 1):find("[%w_]") then
      local first, last = text:find("^%d[%d,]*%.?%d*", at)
      list[#list + 1] = { first = first, last = last, quoted = quoted }
      at = last
    end
    at = at + 1
  end
  return list
end

local cases = {}
for _, file in ipairs(FILES) do
  local text = sh:read(file)
  for _, figure in ipairs(figures_of(text)) do
    for _, extreme in ipairs(figure.quoted and QUANTITIES or NUMBERS) do
      cases[#cases + 1] = { file = file, text = text, figure = figure, extreme = extreme }
    end
  end
end

-- What is wrong with the outcome of one run; nil if nothing is. The largest integers are what wraps around.
local function fault(text, status, extreme)
  if status ~= 0 and status ~= 1 and status ~= 4 then return "status " .. tostring(status) end
  if #text > 1000000 then return "endless text" end
  if status == 1 and extreme:find("/", 1, true) then return nil end -- a finding may name what was written
  return text:match("%f[%w][-+]?nan%f[%W]") or text:match("%f[%w][-+]?inf%f[%W]") or text:match("error%[internal%]")
    or text:match("stack traceback") or (#extreme < 19 and text:match("-?%f[%w]922337203685%d+"))
end

local function try(case, number)
  local figure = case.figure
  sh:write(case.file, case.text:sub(1, figure.first - 1) .. case.extreme .. case.text:sub(figure.last + 1))
  local command = COMMANDS[number % #COMMANDS + 1]
  local faults = {}
  for _, job in ipairs(JOBS) do
    local text, status = sh:sh(("timeout 30 %s %s"):format(shell.quote(sh.gritwork), command:format(job)))
    local what = fault(text, status, case.extreme)
    if what then faults[#faults + 1] = ("%s %s: %s"):format(command:format(job), what, text:sub(1, 300)) end
  end
  sh:write(case.file, case.text)
  return faults
end

math.randomseed(11)
for i = 1, all and #cases or SAMPLE do
  local case = all and cases[i] or cases[math.random(#cases)]
  local line = select(2, case.text:sub(1, case.figure.first):gsub("\n", "")) + 1
  local was = case.text:sub(case.figure.first, case.figure.last)
  sh:test(("%s:%d: %s for %s"):format(case.file, line, case.extreme, was), function()
    local faults = try(case, i)
    assert(#faults == 0, table.concat(faults, "\n"))
  end)
end

sh:finish()
