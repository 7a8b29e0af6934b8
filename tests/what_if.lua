-- what_if.lua BUILD - values given on the command line: the same as if they stood in the files, in words and in figures.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "whatif")
local same, holds = shell.same, shell.holds

sh:copy "recipes"

local function cost(arguments) return sh:run(("cost --effort=1 %s recipes/jobs/north_hall.lua"):format(arguments)) end

local function money(text) return tonumber((text:gsub(",", ""))) end

local function price(arguments)
  local text, status = cost(arguments)
  same(status, 0, text)
  return money(assert(text:match("\nPRICE%s+%$([%d,.]+)"), text))
end

local written = price ""

sh:test("what is written anyway changes nothing", function()
  same(price '--with "prices.night=12 %"', written)
  same(price '--with "opening passes=6" --with "prices.night=12 %"', price '--with "opening passes=6"')
end)

sh:test("the last value given counts", function()
  same(price '--with "prices.night=0 %" --with "prices.night=12 %"', written)
end)

sh:test("more work costs more", function()
  assert(price '--with "opening passes=9"' > price '--with "opening passes=4"', "passes")
  assert(price '--with "densify.densify.coats=2"' > written, "coats")
  assert(price '--with "prices.night=0 %"' < written, "nights")
  assert(price '--with "area.showroom.joints=0 ft"' < written, "joints")
end)

-- Each: arguments, exit status, what is said.
local REFUSED = {
  { '--with "opening pases=8"', 1, "nothing here is called `opening pases`" },
  { '--with "machine.planetary 32 in.cuont=2"', 1, "nothing here is called `machine.planetary 32 in.cuont`" },
  { '--with "prices.night=20 kg"', 1, "expected fraction" },
  { '--with "opening passes=40"', 1, "parameter `opening passes` must lie in" },
  { '--with "opening passes"', 2, "--with is NAME=VALUE" },
  { '--over "opening passes=8"', 2, "--over is NAME=A..B:STEP" },
  { "--break-even 30000", 2, "--break-even needs one --over" },
  { '--over "opening passes=4..6" --break-even cheap', 2, "--break-even is a price" },
  { '--json --over "opening passes=4..6"', 2, "--over prints a table" },
}
for _, case in ipairs(REFUSED) do
  sh:test("it refuses " .. case[1], function()
    local text, status = cost(case[1])
    same(status, case[2], text)
    holds(text, case[3])
  end)
end

sh:test("a table over two names has the cost of each pair of values", function()
  local text, rows = cost '--over "opening passes=4..8:4" --over "prices.night=0..12:12 %"', {}
  for passes, night, sum in text:gmatch("\n(%d+)%s+(%d+) %%%s+%$([%d,.]+)") do
    rows[passes .. "/" .. night] = money(sum)
  end
  assert(rows["4/0"] < rows["8/0"] and rows["8/0"] < rows["8/12"], text)
  same(rows["8/12"], price '--with "opening passes=8"')
end)

sh:test("the value at which a price is crossed is the first of the range that is past it", function()
  local target = (price '--with "opening passes=7"' + price '--with "opening passes=8"') // 2
  holds(cost(('--over "opening passes=4..12" --break-even %d'):format(target)), "opening passes=8 is the first value")
end)

sh:test("a price that is not crossed is said to be none", function()
  holds(cost '--over "opening passes=4..6" --break-even 1', "stays on one side")
end)

sh:finish()
