-- what_if.lua BUILD - values given on the command line: the same as if they stood in the files, in words and in figures.
local build = arg[1]
local JOB = "recipes/jobs/north_hall.lua"

local passed, failed = 0, 0

local function output(arguments)
  local pipe = io.popen(("%s/gritwork %s 2>&1"):format(build, arguments))
  local text = pipe:read("a")
  local _, _, status = pipe:close()
  return text, status
end

local function check(condition, what)
  if condition then passed = passed + 1 else
    failed = failed + 1
    print("what if: " .. what)
  end
end

local function price(arguments)
  local text, status = output("cost --effort=1 " .. arguments .. " " .. JOB)
  local found = text:match("\nPRICE%s+%$([%d,.]+)")
  check(status == 0 and found, ("%s: no price\n%s"):format(arguments, text))
  return found and tonumber((found:gsub(",", ""))) or 0
end

local written = price ""
check(price '--with "opening passes=6"' == price '--with "opening passes=6" --with "prices.night=12 %"',
  "what is written anyway changes nothing")
check(price '--with "opening passes=9"' > price '--with "opening passes=4"', "more passes cost more")
check(price '--with "densify.densify.coats=2"' > written, "one more coat costs more")
check(price '--with "prices.night=0 %"' < written, "without a night premium it costs less")
check(price '--with "prices.night=0 %" --with "prices.night=12 %"' == written, "the last value given counts")
check(price '--with "area.showroom.joints=0 ft"' < written, "without joints it costs less")

-- Each: arguments, exit status, what is said.
local REFUSED = {
  { '--with "opening pases=8"', 1, "nothing here is called `opening pases`" },
  { '--with "machine.planetary 32 in.cuont=2"', 1, "nothing here is called `machine.planetary 32 in.cuont`" },
  { '--with "prices.night=20 kg"', 1, "expected fraction" },
  { '--with "opening passes=40"', 1, "parameter `opening passes` must lie in" },
  { '--with "opening passes"', 2, "%-%-with is NAME=VALUE" },
  { '--over "opening passes=8"', 2, "%-%-over is NAME=A..B:STEP" },
  { '--break-even 30000', 2, "%-%-break%-even needs one %-%-over" },
  { '--over "opening passes=4..6" --break-even cheap', 2, "%-%-break%-even is a price" },
  { '--json --over "opening passes=4..6"', 2, "%-%-over prints a table" },
}
for _, case in ipairs(REFUSED) do
  local text, status = output("cost " .. case[1] .. " " .. JOB)
  check(status == case[2] and text:find(case[3]), ("%s: status %d\n%s"):format(case[1], status, text))
end

local table_text = output('cost --effort=1 --over "opening passes=4..8:4" --over "prices.night=0..12:12 %" ' .. JOB)
local rows = {}
for passes, night, money in table_text:gmatch("\n(%d+)%s+(%d+) %%%s+%$([%d,.]+)") do
  rows[passes .. "/" .. night] = tonumber((money:gsub(",", "")))
end
check(rows["4/0"] and rows["8/0"] and rows["8/12"] and rows["4/0"] < rows["8/0"] and rows["8/0"] < rows["8/12"],
  "a table over two names\n" .. table_text)
check(rows["8/12"] == price '--with "opening passes=8"', "a row of the table is the cost with its values")

-- The value at which a price is crossed is the first of the range that is past it.
local target = math.floor((price '--with "opening passes=7"' + price '--with "opening passes=8"') / 2)
local crossing = output(('cost --effort=1 --over "opening passes=4..12" --break-even %d %s'):format(target, JOB))
check(crossing:find("^opening passes=8 is the first value"), "a crossing at 8\n" .. crossing)
check(output('cost --effort=1 --over "opening passes=4..6" --break-even 1 ' .. JOB):find("stays on one side"),
  "no crossing is said")

print(("whatif: %d passed, %d failed"):format(passed, failed))
os.exit(failed == 0)
