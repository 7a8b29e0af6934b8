--- What people meet in a shift, by the schedule: noise, vibration, dust, vapour, exhaust.
--
-- A machine without a figure adds nothing, and a finding never says that the rest is harmless: data sheets,
-- local codes and licensed practice come first.
local air = require "native.air"
local chain = require "core.chain"
local exposure = require "native.exposure"

local RUNNING = { field = true, edges = true, surface = true }

-- Hours of a shift at the machines that have a figure for `field`: { level, hours }, and the first such machine.
local function tasks_of(shift, field, unit)
  local tasks, machine = {}, nil
  for _, task in ipairs(shift.tasks) do
    local m = RUNNING[task.activity.kind] and task.activity.machine
    local level = m and chain.number(m, field, unit)
    if level and task.minutes > 0 then
      tasks[#tasks + 1] = { level = level, hours = task.minutes / 60 }
      machine = machine or m
    end
  end
  return tasks, machine
end

local function check_noise(criterion, unit_text)
  return function(plan, report)
    local seen = {}
    for _, shift in ipairs(plan.shifts) do
      local tasks, machine = tasks_of(shift, "noise", "dBA")
      local dose, average = nil, nil
      if machine then dose, average = exposure.noise(criterion, tasks) end
      if dose and dose > 100 and not seen[shift.crew] then
        seen[shift.crew] = true
        report { on = machine, field = "noise",
          message = ("%s takes a noise dose of %.0f %% in a shift, %.1f dBA over 8 h (%s)"):format(
            shift.person, dose, average, unit_text) }
      end
    end
  end
end

local function check_vibration(plan, report)
  local action, limit = exposure.limit("hand_arm.action").high, exposure.limit("hand_arm.limit").high
  local seen = {}
  for _, shift in ipairs(plan.shifts) do
    local tasks, machine = tasks_of(shift, "vibration", "m/s2")
    local a8 = machine and exposure.vibration(tasks)
    if a8 and a8 > action and not seen[shift.crew] then
      seen[shift.crew] = true
      report { on = machine, field = "vibration", level = a8 > limit and "error" or "warning",
        message = ("%s comes to a hand-arm A(8) of %.1f m/s2 in a shift; action from %g, limit %g"):format(
          shift.person, a8, action, limit) }
    end
  end
end

local function is_hand_held(machine)
  local works = chain.get(machine, "does") or {}
  return #works == 1 and works[1] == "edges"
end

local ABRADES = { grind = true, hone = true }

local function dry_hours(shift)
  local hours = {}
  for _, task in ipairs(shift.tasks) do
    local activity = task.activity
    local machine = activity.machine
    if machine and ABRADES[activity.step.word] and not chain.is_wet(activity.step)
      and chain.written(machine, "dust") then
      hours[machine] = (hours[machine] or 0) + task.minutes / 60
      hours[#hours + 1] = hours[machine] == task.minutes / 60 and machine or nil
    end
  end
  return hours
end

local function check_row(shift, machine, hours, indoors, report)
  local verdict, answer = exposure.dust { equipment = is_hand_held(machine) and "handheld grinder"
    or "floor grinder",
    method = "collector", indoors = indoors, hours = math.max(hours, 0.01),
      controls = chain.get(machine, "dust") or {} }
  if verdict == "missing" then
    report { on = machine, field = "dust",
      message = ("%s runs dry without all that Table 1 asks for: %s"):format(machine.name,
      table.concat(answer, ", ")) }
  elseif verdict == "followed" and answer > 0 then
    report { on = machine, field = "dust", level = "warning",
      message = ("%s is %.1f h a shift at %s: Table 1 asks for a respirator of "
      .. "protection factor %d"):format(shift.person, hours, machine.name, answer) }
  end
end

local function check_dust(plan, report)
  local indoors = chain.inner(plan.job, "site", "indoors") ~= false
  local seen = {}
  for _, shift in ipairs(plan.shifts) do
    local hours = dry_hours(shift)
    for _, machine in ipairs(hours) do
      if not seen[machine] then
        seen[machine] = true
        check_row(shift, machine, hours[machine], indoors, report)
      end
    end
  end
end

local MIXING = 3 -- a room with corners; from memory, industrial-hygiene practice

-- The room of an area in the units of native.air; nil where its height or fresh air is not known.
local function room_of(plan, area)
  local height, fresh = chain.inner(plan.job, "site", "height"), chain.inner(plan.job, "site", "fresh_air")
  local size = chain.number(area, "area", "m2") or (chain.number(area, "length", "m") or 0) * (chain.number(area,
    "width", "m") or 0)
  if not height or not fresh or size == 0 then return nil end
  return { volume_m3 = size * height:to("m"), fresh_air_m3_h = fresh:to("m3/h"), mixing = MIXING }
end

local function temperature(plan)
  local value = chain.inner(plan.job, "climate", "air")
  return value and value:to("C") or 20
end

local function hours_of(activity) return math.max((activity.finish - activity.start) / 60, 0.1) end

-- Reports who, in a shift, breathes more than `limit` ppm on average over 8 h. `averages` gives the ppm of the air
-- while an activity goes on.
local function check_average(plan, averages, limit, what, on, report)
  local seen = {}
  for _, shift in ipairs(plan.shifts) do
    local ppm_hours, first = 0, nil
    for _, task in ipairs(shift.tasks) do
      local ppm = averages[task.activity]
      first = first or ppm and task.activity
      ppm_hours = ppm_hours + (ppm or 0) * task.minutes / 60
    end
    if ppm_hours / 8 > limit and not seen[shift.crew] then
      seen[shift.crew] = true
      report { on = first[on],
        message = ("%s breathes %.1f ppm of %s on average over 8 h; the recommended limit is %g"):format(shift.person,
          ppm_hours / 8, what, limit) }
    end
  end
end

local function vapour_words(activity, peak, share)
  local step, area = activity.step.name, activity.area.name
  if not peak then return ("%s brings more acetone into %s than its air can take"):format(step, area) end
  return ("%s brings the air of %s to about %.0f ppm of acetone, %.0f %% of its lower explosive limit"):format(step,
    area, peak, share * 100)
end

local function check_vapour(plan, report)
  local lel, idlh = exposure.limit("lel.share").high, exposure.limit("acetone.idlh").high
  local averages = {}
  for _, activity in ipairs(plan.activities) do
    local room = activity.step.word == "dye" and chain.get(activity.step, "with") == "acetone dye"
      and activity.kind == "apply" and room_of(plan, activity.area)
    if room then
      local peak, average, share = air.solvent("acetone", activity.material_l, temperature(plan), hours_of(activity),
        room)
      averages[activity] = peak and average
      if not peak or share > lel or peak > idlh then
        report { on = activity.step, level = "error", message = vapour_words(activity, peak, share) }
      end
    end
  end
  check_average(plan, averages, exposure.limit("acetone.twa.niosh").high, "acetone", "step", report)
end

local function check_exhaust(plan, report)
  local stop = exposure.limit("co.ceiling.niosh").high
  local averages, stopped = {}, {}
  for _, activity in ipairs(plan.activities) do
    local machine = activity.machine
    local grams = machine and chain.get(machine, "carbon_monoxide")
    local room = grams and room_of(plan, activity.area)
    if room then
      local peak, average = air.exhaust(grams, temperature(plan), hours_of(activity), room)
      averages[activity] = peak and average
      if (not peak or peak > stop) and not stopped[machine] then
        stopped[machine] = true
        report { on = machine, field = "carbon_monoxide",
          message = ("%s in %s comes to about %.0f ppm of carbon monoxide; work stops at %g"):format(machine.name,
            activity.area.name, peak or math.huge, stop) }
      end
    end
  end
  check_average(plan, averages, exposure.limit("co.twa.niosh").high, "carbon monoxide", "machine", report)
end

local function check_propane(job, report)
  for _, machine in ipairs(job.machines) do
    if chain.get(machine, "fuel") == "propane" and chain.inner(job, "site", "indoors") ~= false
      and not chain.inner(job, "site", "fresh_air") then
      report { on = machine, field = "fuel",
        message = ("%s burns propane indoors, and the job says nothing of fresh air"):format(machine.name) }
    end
  end
end

return {
  {
    id = "noise-limit", level = "warning", scope = "plan", law = true,
    says = "nobody's noise dose of a shift is over 100 % by the construction rule, at the machines whose level "
      .. "is given",
    basis = "29 CFR 1926.52: 90 dBA for 8 h, 5 dB exchange; federal regulation text", status = "confirmed",
    help = "share the machine among the crew, or quiet it; hearing protection has its own programme",
    bad = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", noise = "104 dBA" },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 8 } },
        length = "60 ft", width = "40 ft" },
    ]],
    good = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", noise = "80 dBA" },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 8 } },
        length = "60 ft", width = "40 ft" },
    ]],
    check = check_noise("osha permissible", "29 CFR 1926.52"),
  },
  {
    id = "hand-arm", level = "warning", scope = "plan", law = true,
    says = "nobody's hand-arm vibration of a shift is over the action value, at the machines whose vibration is "
      .. "given",
    basis = "Directive 2002/44/EC: action 2.5, limit 5.0 m/s2 A(8); ANSI/ASA S2.70 takes the same two",
    status = "confirmed",
    help = "share the machine among the crew, or take a smoother one",
    bad = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", vibration = "9 m/s2" },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 8 } },
        length = "60 ft", width = "40 ft" },
    ]],
    good = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", vibration = "1.5 m/s2" },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 8 } },
        length = "60 ft", width = "40 ft" },
    ]],
    check = check_vibration,
  },
  {
    id = "silica-table", level = "error", scope = "plan", law = true,
    says = "a machine that grinds dry has every control that its row of Table 1 asks for, where its controls are "
      .. "given",
    basis = "29 CFR 1926.1153(c) Table 1; a row that is not followed asks for air sampling; trade-press "
      .. "reproduction",
    status = "confirmed",
    help = "add the control, or measure the exposure",
    bad = [[
      machine "planetary" { does = { "grind", "edges" }, width = "28 in", dust = { "collector" } },
      area "hall" { recipe = recipe "r" { grind "40" { grit = 40, bond = "metal", passes = 2 } },
        length = "20 ft", width = "20 ft" },
    ]],
    good = [[
      machine "planetary" { does = { "grind", "edges" }, width = "28 in",
        dust = { "collector", "filter 99", "filter cleaning", "hepa between passes", "25 cfm an inch" } },
      area "hall" { recipe = recipe "r" { grind "40" { grit = 40, bond = "metal", passes = 2 } },
        length = "20 ft", width = "20 ft" },
    ]],
    check = check_dust,
  },
  {
    id = "solvent-air", level = "warning", scope = "plan", law = true,
    says = "acetone of a dye stays under a quarter of its lower explosive limit, and nobody breathes more than the "
      .. "recommended average in a shift, where height and fresh air are given",
    basis = "NIOSH 250 ppm average, 2,500 ppm immediately dangerous; the 25 % rule of fire codes. A room taken "
      .. "as mixed; a meter decides",
    status = "from memory",
    help = "bring more fresh air, dye in smaller parts, or use a water dye",
    bad = [[
      site = { height = "12 ft", fresh_air = "50 cfm" },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" {
        clean "vacuum" { with = "vacuum", dry = "1 h" },
          dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "20 min" },
        clean "wipe" { with = "neutral cleaner", dry = "1 h" },
          densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" } } },
    ]],
    good = [[
      site = { height = "12 ft", fresh_air = "60000 cfm" },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" {
        clean "vacuum" { with = "vacuum", dry = "1 h" },
          dye "walnut" { with = "acetone dye", spread = "400 sqft/gal", dry = "20 min" },
        clean "wipe" { with = "neutral cleaner", dry = "1 h" },
          densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" } } },
    ]],
    check = check_vapour,
  },
  {
    id = "exhaust-air", level = "warning", scope = "plan", law = true,
    says = "exhaust stays under 200 ppm of carbon monoxide, and 35 ppm over 8 h for each person, where emission, "
      .. "height and fresh air are given",
    basis = "NIOSH ceiling and average; a calculation replaces no alarm", status = "confirmed",
    help = "bring fresh air, or an electric machine; measure",
    bad = [[
      site = { height = "10 ft", fresh_air = "20 cfm" },
      machine "burnisher" { does = { "burnish" }, width = "27 in", fuel = "propane", travel = "20 ft/min",
        carbon_monoxide = 900 },
      area "hall" { recipe = recipe "r" { burnish "b" { grit = 3000 } }, length = "20 ft", width = "20 ft" },
    ]],
    good = [[
      site = { height = "10 ft", fresh_air = "20000 cfm" },
      machine "burnisher" { does = { "burnish" }, width = "27 in", fuel = "propane", travel = "20 ft/min",
        carbon_monoxide = 20 },
      area "hall" { recipe = recipe "r" { burnish "b" { grit = 3000 } }, length = "20 ft", width = "20 ft" },
    ]],
    check = check_exhaust,
  },
  {
    id = "propane-indoors", level = "warning", scope = "job", law = true,
    says = "propane machines indoors come with measured fresh air",
    basis = "measured carbon monoxide and air change; alarm at 35, stop at 200 ppm; built on the NIOSH figures",
    status = "common practice",
    help = 'say site = { fresh_air = "2000 cfm" } once it is measured',
    bad = [[
      machine "burnisher" { does = { "burnish" }, width = "27 in", fuel = "propane" },
      area "hall" { recipe = recipe "r" { burnish "b" { grit = 3000 } }, length = "20 ft", width = "20 ft" },
    ]],
    good = [[
      machine "burnisher" { does = { "burnish" }, width = "27 in" },
      area "hall" { recipe = recipe "r" { burnish "b" { grit = 3000 } }, length = "20 ft", width = "20 ft" },
    ]],
    check = check_propane,
  },
}
