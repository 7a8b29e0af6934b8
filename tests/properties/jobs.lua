-- jobs.lua BUILD [JOBS] - what must hold for any job: tried on jobs made up by chance, always the same ones.
local build, jobs = arg[1], tonumber(arg[2] or 8)
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local shell = require "shell"

local sh = shell.new(build, "properties")
local same = shell.same

---- jobs made up by chance, as tables, and as text

local seed = 0

-- A whole number from low to high: our own generator, so that every Lua makes the same jobs.
local function chance(low, high)
  seed = (seed * 6364136223846793005 + 1442695040888963407) & 0x7fffffffffffffff
  return low + (seed >> 24) % (high - low + 1)
end

local function one_of(list) return list[chance(1, #list)] end

local GRITS = { { 50, 100, 200 }, { 80, 150, 300 }, { 100, 200, 400 }, { 200, 400, 800 } }

local function made_up(number)
  seed = number
  local job = { name = "job", crew = chance(1, 3), machines = chance(1, 2), grits = one_of(GRITS), passes = {}, areas = {},
    spread = chance(400, 800), wage = chance(2000, 6000), margin = chance(0, 40), set_up = chance(0, 20) }
  for i = 1, #job.grits do job.passes[i] = chance(1, 8) end
  for i = 1, chance(1, 3) do
    local sqft = chance(200, 1500)
    job.areas[i] = { name = "area " .. i, sqft = sqft, edge_ft = chance(0, sqft // 5) }
  end
  return job
end

-- A length, an area and so on: in feet, or exactly the same in metres.
local function ft(job, n) return job.metric and ("%.6f m"):format(n * 0.3048) or ("%d ft"):format(n) end
local function sqft(job, n) return job.metric and ("%.8f m2"):format(n * 0.09290304) or ("%.2f sqft"):format(n) end

local function recipe_text(job)
  local lines = {}
  for i, grit in ipairs(job.grits) do
    lines[i] = ('  hone "%d" { grit = %d, bond = "resin", passes = %d, overlap = %s },'):format(grit, grit, job.passes[i],
      job.metric and '"7.62 cm"' or '"3 in"')
  end
  lines[#lines + 1] = '  clean "wash" { with = "water", dry = "30 min" },'
  -- 1 sqft/gal is 0.09290304 m2 to 3.785411784 L
  local spread = job.metric and ("%.10f m2/L"):format(job.spread * 0.09290304 / 3.785411784) or job.spread .. " sqft/gal"
  lines[#lines + 1] = ('  densify "densify" { with = "lithium silicate", spread = "%s", dwell = between("20 min", "2 h"), dry = "1 h" },')
    :format(spread)
  return 'return recipe "r" {\n' .. table.concat(lines, "\n") .. "\n}\n"
end

-- Standing is not paid: how much there is of it depends on the schedule that was found.
local function prices_text(job)
  local tools = {}
  for i, grit in ipairs(job.grits) do
    tools[i] = ('["resin %d"] = { price = "$%d", life = "%s" }'):format(grit, 90 + 10 * i,
      job.metric and ("%.8f m2/set"):format(7000 * 0.09290304) or "7000 sqft/set")
  end
  return ([[return prices "p" {
  labour = { worker = "$%.2f/h" }, burden = "31 %%", standing = "0 %%", overhead = "12 %%", contingency = "5 %%", margin = "%d %%",
  tools = { %s },
  materials = { ["lithium silicate"] = { { size = "%s", price = "$48" }, { size = "%s", price = "$205" } } },
  machines = { grinder = { hour = "$16/h" }, edger = { hour = "$5/h" } }, extras = { way = { price = "$450", per = "job" } },
}
]]):format(job.wage / 100, job.margin, table.concat(tools, ", "), job.metric and "3.785411784 L" or "1 gal",
    job.metric and "18.92705892 L" or "5 gal")
end

local function job_text(job)
  local areas = {}
  for i, area in ipairs(job.areas) do
    local size = area.sqft and ('area = "%s"'):format(sqft(job, area.sqft))
      or ('length = "%s", width = "%s"'):format(ft(job, area.length_ft), ft(job, area.width_ft))
    areas[i] = ('  area %q { recipe = require "r", %s, edges = "%s" },'):format(area.name, size, ft(job, area.edge_ft))
  end
  return ([[return job %q {
  units = "%s", start = "2027-03-01 07:00", move = "0 min", prices = require "p",
  shifts = { day = { hours = "7:00 to 17:00" } },
  crew "worker" { count = %d, skills = { "any" }, shift = "day" },
  machine "grinder" { count = %d, does = { "hone" }, width = "%s", travel = "%s", set_up = "%d min", turn = "%d s" },
  machine "edger" { count = 3, does = { "edges", "clean" } },
%s
}
]]):format(job.name, job.metric and "metric" or "us", job.crew, job.machines, job.metric and "60.96 cm" or "24 in",
    job.metric and "4.572 m/min" or "15 ft/min", job.set_up, job.turn_s or 15, table.concat(areas, "\n"))
end

-- What has been asked already, by its command and files: the same questions come up for many of the properties.
local answers = {}

local function ask(command, texts)
  for name, text in pairs(texts) do sh:write(name, text) end
  local text, status = sh:run(command .. " --json --effort=1 job.lua 2>remarks")
  if status ~= 0 then error(sh:read("remarks"):sub(1, 1000) .. texts["job.lua"]) end
  return json.read(text)
end

local function answer(command, job)
  local texts = { ["r.lua"] = recipe_text(job), ["p.lua"] = prices_text(job), ["job.lua"] = job_text(job) }
  local question = table.concat({ command, texts["r.lua"], texts["p.lua"], texts["job.lua"] }, "\0")
  answers[question] = answers[question] or ask(command, texts)
  return answers[question]
end

local function changed(job, change)
  local copy = {}
  for k, v in pairs(job) do copy[k] = v end
  change(copy)
  return copy
end

local function cents(amount)
  local sum = amount * 100
  local whole = math.floor(sum + 0.5)
  assert(math.abs(sum - whole) < 1e-6, amount .. " is no amount of whole cents")
  return whole
end

local function minutes_of(schedule, wanted)
  local sum, count = 0, 0
  for _, activity in ipairs(schedule.activities) do
    if not wanted or wanted(activity) then sum, count = sum + activity.minutes, count + 1 end
  end
  return sum, count
end

---- what must hold

local function each_job(sentence, body)
  sh:test(sentence, function()
    for i = 1, jobs do
      local fine, why = pcall(body, made_up(i))
      if not fine then error(("job %d: %s"):format(i, why), 0) end
    end
  end)
end

each_job("lines add up to the totals, to the cent", function(job)
  local cost, direct = answer("cost", job), 0
  for _, line in ipairs(cost.lines) do direct = direct + cents(line.amount) end
  same(direct, cents(cost.direct), "direct cost")
  local price = direct
  for _, line in ipairs(cost.build) do price = price + cents(line.amount) end
  same(price, cents(cost.price), "price")
end)

each_job("a line is its quantity times its rate", function(job)
  for _, line in ipairs(answer("cost", job).lines) do
    local off = math.abs(line.quantity * line.rate - line.amount)
    assert(off <= 0.005 + 1e-6, ("%s: %s x %s is not %s"):format(line.code, line.quantity, line.rate, line.amount))
  end
end)

each_job("more passes never take less time nor money", function(job)
  local before, cost = answer("schedule", job), answer("cost", job)
  local step = chance(1, #job.grits)
  local more = changed(job, function(copy)
    copy.passes = { table.unpack(job.passes) }
    copy.passes[step] = copy.passes[step] + chance(1, 3)
  end)
  local function is_step(activity) return activity.number == step and activity.work == "field" end
  assert(minutes_of(answer("schedule", more), is_step) > minutes_of(before, is_step), "the step takes no longer")
  assert(answer("cost", more).direct >= cost.direct, "it costs less")
end)

each_job("feet or metres, the price is the same but for rounding", function(job)
  local us, metric = answer("cost", job), answer("cost", changed(job, function(copy) copy.metric = true end))
  same(#metric.lines, #us.lines, "lines")
  local allowed = 0.01 * (#us.lines + #us.build) * 2
  assert(math.abs(metric.price - us.price) <= allowed, ("%.2f and %.2f"):format(us.price, metric.price))
end)

local proved = 0
each_job("one more person or machine never makes a best schedule longer", function(job)
  local before = answer("schedule", job)
  for _, what in ipairs { "crew", "machines" } do
    local after = answer("schedule", changed(job, function(copy) copy[what] = copy[what] + 1 end))
    if before.status == "proved best" and after.status == "proved best" then
      proved = proved + 1
      assert(after.makespan_min <= before.makespan_min, what)
    end
    assert(after.lower_bound_min <= before.makespan_min, "the bound with more is above a schedule with less")
  end
end)
sh:test("some of those schedules were proved best", function() assert(proved > 0) end)

each_job("a floor in two halves takes only the set-up more, and a lane", function(job)
  -- Lanes run along the length, of the whole and of each half; turning is set-up too, and is left out.
  local width, length, edge = chance(10, 20), chance(20, 60), chance(0, 60)
  local function floor(name, part)
    return { name = name, length_ft = length * part, width_ft = width, edge_ft = edge * part }
  end
  job.turn_s = 0
  local whole = changed(job, function(copy) copy.areas = { floor("whole", 2) } end)
  local halves = changed(job, function(copy) copy.areas = { floor("left", 1), floor("right", 1) } end)
  local function is_field(activity) return activity.work == "field" end
  local once, count = minutes_of(answer("schedule", whole), is_field)
  local twice, count_2 = minutes_of(answer("schedule", halves), is_field)
  same(count_2, 2 * count, "pieces of work")
  -- Each piece is rounded up to whole minutes; across, a pass may need a lane more or less where the halves meet.
  local more, lanes_min = twice - once - count * job.set_up, 0
  for _, passes in ipairs(job.passes) do lanes_min = lanes_min + passes * width / 15 / 0.85 end
  assert(more > -count - lanes_min and more < count_2 + lanes_min, ("%d min in %d pieces, %d in %d, set-up %d"):format(once, count, twice, count_2, job.set_up))
  local function quantity(cost, code)
    for _, line in ipairs(cost.lines) do if line.code == code then return line.quantity end end
  end
  local code = "TOOL-resin " .. job.grits[1]
  local worn, worn_2 = quantity(answer("cost", whole), code), quantity(answer("cost", halves), code)
  assert(math.abs(worn - worn_2) <= 0.01, ("%s: %s and %s"):format(code, worn, worn_2))
end)

-- Texts that are hard to write down, as Lua text and as what JSON must give back.
local NAMES = { 'a "quoted" one', "back\\slash", "tab\tand\nline", "\u{e9}t\u{e9} \u{1f600} \u{2028}", "</script><!--", "\u{7f}\u{1b}[31m",
  "null", "\u{202e}right to left", "1e5", "a,b;c|d", "'=1+1'" }

sh:test("names come back from JSON as they were written", function()
  local job = made_up(1)
  for _, name in ipairs(NAMES) do
    job.name = name
    job.areas = { { name = name, sqft = 300, edge_ft = 10 } }
    local cost, schedule = answer("cost", job), answer("schedule", job)
    same(cost.job, name)
    same(schedule.job, name)
    same(schedule.activities[1].area, name)
  end
end)

sh:finish()
