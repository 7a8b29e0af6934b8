-- jobs.lua BUILD - the shipped jobs, end to end: their schedules and costs are checked from the JSON output alone,
-- against rules written down here a second time and with no code of the program.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local shell = require "shell"

local sh = shell.new(build, "jobs")
sh:copy "recipes"

local EARLY = { from = 6 * 60, till = 14 * 60 + 30, days = { [0] = true, true, true, true, true } }
local LATE = { from = 14 * 60, till = 22 * 60 + 30, days = { [0] = true, true, true, true } }

-- What the job files say of people, machines and hours. Days of the week: 0 Monday.
local JOBS = {
  {
    file = "recipes/jobs/north_hall.lua", start = "2027-03-01T20:00", closed = { ["2027-03-07"] = true },
    shift = { from = 20 * 60, till = 30 * 60, days = { [0] = true, true, true, true, true } },
    people = { lead = { machine = true, chemicals = true, readings = true },
      ["operator 1"] = { machine = true, chemicals = true }, ["operator 2"] = { machine = true, chemicals = true },
      helper = { chemicals = true } },
    machines = { ["planetary 32 in"] = 1, ["planetary 22 in"] = 1, ["edger 7 in"] = 2, ["burnisher 27 in"] = 1,
      ["wet vacuum"] = 2 },
    area_hours = { corridor = { from = 20 * 60, till = 29 * 60 + 30 } },
    deadline = "2027-03-20T06:00", percent = { overhead = 0.12, contingency = 0.05, margin = 0.18 },
  },
  {
    file = "recipes/jobs/mill_annex.lua", start = "2027-04-05T07:00", closed = { ["2027-04-09"] = true },
    shift = { from = 7 * 60, till = 16 * 60, days = { [0] = true, true, true, true, true } },
    people = { lead = { machine = true, chemicals = true, readings = true },
      ["operator 1"] = { machine = true, chemicals = true }, ["operator 2"] = { machine = true, chemicals = true },
      ["operator 3"] = { machine = true, chemicals = true } },
    machines = { ["planetary 700 mm"] = 2, ["edger 180 mm"] = 2, ["burnisher 500 mm"] = 1, ["wet vacuum"] = 1 },
    area_hours = {}, percent = { overhead = 0.14, contingency = 0.06, markup = 0.20 },
  },
  {
    file = "recipes/jobs/covered_market.lua", start = "2027-05-03T06:00",
    closed = { ["2027-05-13"] = true, ["2027-05-14"] = true },
    shift = EARLY,
    shift_of = { ["operator 1"] = LATE, ["operator 2"] = LATE },
    away = { lead = { ["2027-05-06"] = true } },
    people = { lead = { machine = true, chemicals = true, readings = true },
      ["operator 1"] = { machine = true, chemicals = true, readings = true },
      ["operator 2"] = { machine = true, chemicals = true, readings = true },
      ["helper 1"] = { chemicals = true }, ["helper 2"] = { chemicals = true } },
    machines = { ["planetary 32 in"] = 1, ["planetary 22 in"] = 1, ["edger 7 in"] = 1, ["burnisher 27 in"] = 1,
      ["wet vacuum"] = 2 },
    machine_hours = { ["burnisher 27 in"] = { from = 8 * 60, till = 20 * 60 } },
    machine_away = { ["burnisher 27 in"] = { ["2027-05-04"] = true, ["2027-05-05"] = true } },
    -- Two circuits of 20 A at 120 V: each carries one machine of 9 to 14 A, at 125 %.
    at_once = { most = 2, ["edger 7 in"] = true, ["burnisher 27 in"] = true, ["wet vacuum"] = true },
    area_hours = { passage = { from = 14 * 60, till = 23 * 60 } },
    area_by = { ["fish hall"] = "2027-05-12T06:00" },
    deadline = "2027-05-22T06:00", percent = { overhead = 0.12, contingency = 0.05, margin = 0.18 },
  },
}

local function check(condition, format, ...)
  if not condition then error(format:format(...), 0) end
end

local function run(command, file)
  return json.read((sh:run(("%s --effort=2 --json %s 2>/dev/null"):format(command, file))))
end

-- Minutes since 1970-01-01, by counting days.
local function minutes(iso)
  local y, m, d, h, min = iso:match("^(%d+)-(%d+)-(%d+)T(%d+):(%d+)$")
  y, m, d = tonumber(y), tonumber(m), tonumber(d)
  local days = 0
  local function leap(year) return year % 4 == 0 and (year % 100 ~= 0 or year % 400 == 0) end
  for year = 1970, y - 1 do days = days + (leap(year) and 366 or 365) end
  local lengths = { 31, leap(y) and 29 or 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 }
  for month = 1, m - 1 do days = days + lengths[month] end
  return (days + d - 1) * 1440 + tonumber(h) * 60 + tonumber(min)
end

local DAY_NAMES = {} -- day number -> "2027-03-07", filled from the outputs

local function note_day(iso) DAY_NAMES[minutes(iso) // 1440] = iso:sub(1, 10) end

-- Is [start, finish) inside one run of these hours, on a day they begin? Not on days away.
local function inside(start, finish, hours, away)
  for day = start // 1440 - 1, start // 1440 do
    local weekday = (day + 3) % 7
    local open = day * 1440 + hours.from
    local on = (not hours.days or hours.days[weekday]) and not (away or {})[DAY_NAMES[day] or ""]
    if on and start >= open and finish <= day * 1440 + hours.till then return true end
  end
  return false
end

local function each_stretch(schedule)
  local list = {}
  for _, activity in ipairs(schedule.activities) do
    for _, stretch in ipairs(activity.stretches) do
      note_day(stretch.start)
      list[#list + 1] = { activity = activity, people = stretch.people, from = minutes(stretch.start),
        till = minutes(stretch.finish), number = stretch.number, along_number = stretch.along_number }
    end
  end
  return list
end

local function check_hours(job, stretches)
  for _, s in ipairs(stretches) do
    local id, area = s.activity.id, s.activity.area
    check(s.from >= minutes(job.start), "%s begins before the job", id)
    if s.activity.attended and s.till > s.from then
      for _, person in ipairs(s.people) do
        local shift, away = (job.shift_of or {})[person] or job.shift, (job.away or {})[person]
        check(inside(s.from, s.till, shift, away), "%s: %s works outside a shift", id, person)
      end
      check(not job.closed[DAY_NAMES[s.from // 1440] or ""], "%s works on a closed day", id)
    end
    local own = job.area_hours[area]
    if own and s.till > s.from then check(inside(s.from, s.till, own), "%s is outside the hours of %s", id, area) end
  end
end

-- At most `most` of the stretches in `list` at any minute.
local function check_load(list, most, what)
  local events = {}
  for _, s in ipairs(list) do
    if s.till > s.from then
      events[#events + 1] = { s.from, 1 }
      events[#events + 1] = { s.till, -1 }
    end
  end
  table.sort(events, function(a, b) return a[1] < b[1] or (a[1] == b[1] and a[2] < b[2]) end)
  local now, peak = 0, 0
  for _, event in ipairs(events) do
    now = now + event[2]
    peak = math.max(peak, now)
  end
  check(peak <= most, "%s: %d at once, there are %d", what, peak, most)
end

-- Its own, and the one that picks up along the way, of a stretch.
local function machines_of(s)
  local list, along = {}, s.activity.along
  if s.activity.machine then list[#list + 1] = { class = s.activity.machine.class, number = s.number } end
  if along and along.machine then list[#list + 1] = { class = along.machine.class, number = s.along_number } end
  return list
end

local function check_resources(job, stretches, skills)
  local by_person, by_unit, at_once = {}, {}, {}
  for _, s in ipairs(stretches) do
    for place, person in ipairs(s.people) do
      by_person[person] = by_person[person] or {}
      table.insert(by_person[person], s)
      local along = s.activity.along
      local follows = along and place > #s.people - along.follow
      local skill = skills[s.activity.area .. "/" .. (follows and along.step or s.activity.step)]
      if s.activity.work == "site" then skill = "any" end
      check(job.people[person] and (skill == "any" or job.people[person][skill]), "%s: %s lacks the skill %s",
        s.activity.id, person, tostring(skill))
    end
    for _, machine in ipairs(machines_of(s)) do
      local hours, away = (job.machine_hours or {})[machine.class], (job.machine_away or {})[machine.class]
      check(not hours or inside(s.from, s.till, hours, away), "%s: %s runs outside its hours", s.activity.id, machine.class)
      if job.at_once and job.at_once[machine.class] then at_once[#at_once + 1] = s end
      check(machine.number <= job.machines[machine.class], "%s: no. %d of %s", s.activity.id, machine.number, machine.class)
      local unit = machine.class .. machine.number
      by_unit[unit] = by_unit[unit] or {}
      table.insert(by_unit[unit], s)
    end
  end
  for person, list in pairs(by_person) do check_load(list, 1, person) end
  for unit, list in pairs(by_unit) do check_load(list, 1, unit) end
  check_load(at_once, job.at_once and job.at_once.most or 0, "the circuits")
end

local function check_durations(schedule)
  for _, a in ipairs(schedule.activities) do
    local worked = 0
    for _, s in ipairs(a.stretches) do worked = worked + minutes(s.finish) - minutes(s.start) end
    check(worked == a.minutes, "%s is planned for %d min and works %d", a.id, a.minutes, worked)
    if a.work == "apply" and a.word ~= "fill" or a.work == "dwell" or a.work == "rest" then
      check(minutes(a.finish) - minutes(a.start) == a.minutes, "%s is broken off", a.id)
    end
  end
end

-- Order, windows and hold points of each area, from the sheet.
local function check_order(schedule, sheet)
  local by_id = {}
  for _, a in ipairs(schedule.activities) do by_id[a.id] = a end
  for _, area in ipairs(sheet.areas) do
    local before_end, before_starts
    local window -- latest start of the next step
    for _, step in ipairs(area.steps) do
      local first, last, apply_end, dwell_end = math.huge, 0, nil, nil
      for _, id in ipairs(step.activities) do
        local a = by_id[id]
        first, last = math.min(first, minutes(a.start)), math.max(last, minutes(a.finish))
        if a.work == "apply" then apply_end = minutes(a.finish) end
        if a.work == "dwell" then dwell_end = minutes(a.finish) end
      end
      if #step.activities > 0 then
        local name = area.name .. "/" .. step.name
        if before_end then check(first >= before_end, "%s starts before the step before it ends", name) end
        if window then check(first <= window.at, "%s starts after the window of %s", name, window.of) end
        if step.within_min and before_starts then
          check(first <= before_end + step.within_min, "%s starts %d min late", name, first - before_end)
        end
        window = nil
        if step.dwell_min and dwell_end and step.coats ~= 2 then
          check(dwell_end - apply_end >= step.dwell_min.low, "%s dwells too short", name)
          if step.dwell_min.high and not step.dry_min then window = { at = apply_end + step.dwell_min.high, of = name } end
        end
        if step.dry_min and step.dry_min.low and #step.activities > 1 then
          check(last - (dwell_end or apply_end or first) >= step.dry_min.low - 1e-9, "%s dries too short", name)
        end
        before_end, before_starts = last, first
      end
    end
  end
end

local function cents(x) return math.floor(x * 100 + 0.5) end

local function half_even(x)
  local floor = math.floor(x)
  local rest = x - floor
  if math.abs(rest - 0.5) < 1e-7 then return floor % 2 == 0 and floor or floor + 1 end
  return math.floor(x + 0.5)
end

local function check_cost(job, cost)
  local sum = 0
  for _, line in ipairs(cost.lines) do
    sum = sum + cents(line.amount)
    check(cents(line.amount) == half_even(line.quantity * line.rate * 100), "%s: %.2f x %.4f is not %.2f", line.code,
      line.quantity, line.rate, line.amount)
  end
  check(sum == cents(cost.direct), "lines add up to %d cents, the direct cost is %.2f", sum, cost.direct)
  local overhead = half_even(sum * job.percent.overhead)
  local contingency = half_even((sum + overhead) * job.percent.contingency)
  local total = sum + overhead + contingency
  check(total == cents(cost.cost), "cost: %d against %.2f", total, cost.cost)
  local price = job.percent.margin and half_even(total / (1 - job.percent.margin)) or total + half_even(total * job.percent.markup)
  check(price == cents(cost.price), "price: %d against %.2f", price, cost.price)
end

local function check_deadline(job, schedule)
  for _, activity in ipairs(schedule.activities) do
    local by = (job.area_by or {})[activity.area]
    check(not by or minutes(activity.finish) <= minutes(by), "%s ends after its area opens", activity.id)
  end
  check(not job.deadline or minutes(schedule.finish) <= minutes(job.deadline), "it ends after its deadline")
end

-- Timed again with the plan's own minutes the job ends when it was planned to, at the planned cost but for cents.
local function check_risk(schedule, risk)
  check(risk.plan.finish == schedule.finish, "the plan ends at %s, not %s", schedule.finish, risk.plan.finish)
  check(minutes(risk.likely.finish) <= minutes(risk.plan.finish), "as likely it ends at %s", risk.likely.finish)
  check(math.abs(risk.likely.cost - risk.plan.cost) < 1, "as likely it costs %.2f", risk.likely.cost)
  for i = 2, #risk.levels do
    local low, high = risk.levels[i - 1], risk.levels[i]
    check(low.cost <= high.cost and minutes(low.finish) <= minutes(high.finish), "P%d is below P%d", 100 * high.share,
      100 * low.share)
  end
  for _, driver in ipairs(risk.drivers) do
    check(math.abs(driver.finish_rank) <= 1 and math.abs(driver.cost_rank) <= 1, "%s: no correlation", driver.what)
  end
end

local function skills_of(sheet)
  local skills = {}
  for _, area in ipairs(sheet.areas) do
    for _, step in ipairs(area.steps) do skills[area.name .. "/" .. step.name] = step.skill end
  end
  return skills
end

for _, job in ipairs(JOBS) do
  local schedule, sheet, cost = run("schedule", job.file), run("sheet", job.file), run("cost", job.file)
  local stretches = each_stretch(schedule)
  assert(#stretches > 50)
  local function must(sentence, body, ...)
    local arguments = table.pack(...)
    sh:test(job.file .. ": " .. sentence, function() body(table.unpack(arguments, 1, arguments.n)) end)
  end
  must("work keeps to the hours", check_hours, job, stretches)
  must("nobody and nothing is in two places", check_resources, job, stretches, skills_of(sheet))
  must("activities take the time they need", check_durations, schedule)
  must("steps keep their order and windows", check_order, schedule, sheet)
  must("the cost adds up", check_cost, job, cost)
  must("the simulation agrees with the plan", check_risk, schedule, run("risk", job.file))
  must("the deadline is kept", check_deadline, job, schedule)
end
sh:finish()
