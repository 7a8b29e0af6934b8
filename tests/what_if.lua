-- what_if.lua BUILD - values given on the command line: the same as if they stood in the files, in words and in
-- figures.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local schema = require "schema"
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

-- Each: what is given, which way the price goes.
local DEEPER = {
  { "site.hours=22:00 to 05:00", "down" }, -- no overtime
  { "shifts.night.hours=20:00 to 05:00", "down" },
  { "crew.helper.count=2", "up" },
  { "prices.labour.operator=$44/h", "up" },
  { "prices.tools.resin 400.life=3000 sqft/set", "up" },
  { "prices.materials.stain guard.1.price=$195", "up" },
  { "prices.overtime.premium=100 %", "up" },
  { "prices.contingency.certainty=90 %", "up" },
}
for _, case in ipairs(DEEPER) do
  sh:test(("with %s the price goes %s"):format(case[1], case[2]), function()
    local now = price("--with " .. shell.quote(case[1]))
    assert((now > written) == (case[2] == "up") and now ~= written, ("%s, was %s"):format(now, written))
  end)
end

sh:test("`job.` before a table of the job may be left out", function()
  same(price '--with "job.site.hours=22:00 to 05:00"', price '--with "site.hours=22:00 to 05:00"')
end)

sh:test("a contingency from risk is the one that risk proposes, and grows with the certainty", function()
  local ninety = '--with "prices.contingency.certainty=90 %" '
  assert(price '--with "prices.contingency.certainty=50 %"' < price(ninety))
  same(price(ninety), price(ninety))
  local proposed = sh:run("risk --effort=1 " .. ninety .. "recipes/jobs/north_hall.lua"):match("takes %$([%d,.]+),")
  same(cost(ninety):match("contingency, from risk%s+%$([%d,.]+)"), assert(proposed))
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
  { '--with "site.huors=20:00 to 06:00"', 1, "did you mean `site.hours`" },
  { '--with "crew.operator.cuont=3"', 1, "did you mean `crew.operator.count`" },
  { '--with "crew.operater.count=3"', 1, "did you mean `crew.operator.count`" },
  { "--with 'prices.labor.operator=$3/h'", 1, "did you mean `prices.labour.operator`" },
  { '--with "prices.contingency.certainly=90 %"', 1, "did you mean `prices.contingency.certainty`" },
  { '--with "prices.contingency.certainty=49 %"', 1, "must be 50 % to 99 %" },
  { "--with 'prices.labour.foreman=$50/h'", 1, "nothing here is called `prices.labour.foreman`" },
  { '--with "site.hours=noon"', 1, "is not hours of the day" },
  { '--with "climate.air=70 F"', 1, "climate needs `humidity`" },
  { '--over "opening passes=38..42"', 1, "must lie in" },
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

-- What `cost --json` prints of a range, by its schema.
local function for_programs(arguments)
  local text, status = cost("--json " .. arguments)
  same(status, 0, text)
  same(schema.judge(sh, "docs/schema/over.json", text), "valid")
  return json.read(text)
end

sh:test("programs read the rows of a table", function()
  local rows = for_programs('--over "opening passes=4..8:4" --over "prices.night=0..12:12 %"').rows
  same(#rows, 4)
  same(rows[4].price, price '--with "opening passes=8"')
  same(rows[4].values[1] .. ", " .. rows[4].values[2] .. ", " .. rows[4].status, "8, 12 %, priced")
end)

sh:test("programs read a crossing, and null where there is none", function()
  local target = (price '--with "opening passes=7"' + price '--with "opening passes=8"') // 2
  same(for_programs(('--over "opening passes=4..12" --break-even %d'):format(target)).crossing.values[1], "8")
  same(for_programs('--over "opening passes=4..6" --break-even 1').crossing, json.null)
end)

sh:test("a row that cannot be done is an answer, and no fault", function()
  local text, status = cost '--over "densify.densify.dwell=30..2430:1200 min"'
  same(status, 0, text)
  holds(text, "cannot be done")
  holds(text, "$")
end)

sh:finish()
