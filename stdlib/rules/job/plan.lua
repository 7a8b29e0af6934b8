--- What the schedule shows: machines and people that stand idle, edges that lag, rates that nobody keeps.
local abrasive = require "native.abrasive"
local chain = require "core.chain"

local function machines_used(plan)
  local seen = {}
  for _, activity in ipairs(plan.activities) do
    if activity.machine then seen[activity.machine] = true end
    if activity.along then seen[activity.along] = true end
  end
  return seen
end

local function check_machines(plan, report)
  local seen = machines_used(plan)
  for _, machine in ipairs(plan.job.machines) do
    if not seen[machine] then
      report { on = machine, message = ("%s is on the job and does nothing in this schedule"):format(machine.name) }
    end
  end
end

local function check_crews(plan, report)
  local seen = {}
  for _, shift in ipairs(plan.shifts) do seen[shift.crew] = true end
  for _, crew in ipairs(plan.job.crews) do
    if not seen[crew] then
      report { on = crew, message = ("%s is on the job and does nothing in this schedule"):format(crew.name) } end
  end
end

local function check_production(plan, report)
  local opened = {}
  for _, activity in ipairs(plan.activities) do
    local tool = activity.kind == "field" and chain.tool(activity.step)
    local width = tool and activity.machine and chain.number(activity.machine, "width", "m")
    if width and width >= 0.38 and activity.step.word ~= "burnish" then
      local opening = tool.bond == "metal" and not opened[activity.area]
      opened[activity.area] = true
      local low, high = abrasive.production(tool, chain.is_wet(activity.step), opening, width)
      local minutes = -activity.along_min
      for _, stretch in ipairs(activity.stretches) do minutes = minutes + stretch.finish - stretch.start end
      local rate = activity.floor_m2 * 10.7639 / (minutes / 60)
      if low and rate > high * 1.5 then
        report { on = activity.step, field = "passes",
          message = ("%s in %s is planned at %.0f sqft/h; %.0f to %.0f is usual"):format(
            activity.step.name, activity.area.name, rate, low, high),
          labels = { { on = activity.machine, field = "travel", text = "with this machine" } } }
      end
    end
  end
end

local function check_long(plan, report)
  local seen = {}
  for _, shift in ipairs(plan.shifts) do
    if shift.minutes > 12 * 60 and not seen[shift.crew] then
      seen[shift.crew] = true
      report { on = shift.crew, message = ("%s works %.1f h in one shift"):format(shift.person,
        shift.minutes / 60) }
    end
  end
end

return {
  {
    id = "machine-idle", level = "warning", scope = "plan",
    says = "every machine class on the job has work in the schedule",
    basis = "what stands idle is paid for by the day", status = "common practice",
    help = "leave it at home, or ask for it in a step",
    bad = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in" },
      machine "burnisher" { does = { "burnish" }, width = "27 in" },
    ]],
    good = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in" },
    ]],
    check = check_machines,
  },
  {
    id = "crew-idle", level = "warning", scope = "plan",
    says = "every crew on the job has work in the schedule",
    basis = "what stands idle is paid for", status = "common practice",
    help = "leave the crew out, or give it the skills",
    bad = [[
      crew "operator" { count = 2, skills = { "any" }, shift = "day" },
      crew "watcher" { skills = { "looking" }, shift = "day" },
    ]],
    good = [[
      crew "operator" { count = 2, skills = { "any" }, shift = "day" },
    ]],
    check = check_crews,
  },
  {
    id = "production-band", level = "warning", scope = "plan",
    says = "no step is planned at half again the usual rate of its tool and head or more",
    basis = "production bands by step and head, one completed step, one operator", status = "common practice",
    help = "check the passes, the walking speed and the duty",
    bad = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", travel = "60 ft/min" },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 1 } },
        length = "60 ft", width = "40 ft" },
    ]],
    good = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", travel = "20 ft/min" },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 6 } },
        length = "60 ft", width = "40 ft" },
    ]],
    check = check_production,
  },
  {
    id = "long-shift", level = "warning", scope = "plan",
    says = "nobody works more than twelve hours in a shift",
    basis = "tired people slip; local rules may ask for less", status = "common practice",
    help = "shorten the shift, or add people",
    bad = [[
      units = "us", start = "2027-03-01 06:00", shifts = { day = { hours = "6:00 to 23:00" } },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 20 } },
        length = "120 ft", width = "40 ft" },
    ]],
    good = [[
      units = "us", start = "2027-03-01 06:00", shifts = { day = { hours = "6:00 to 16:00" } },
      area "hall" { recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 6 } },
        length = "60 ft", width = "40 ft" },
    ]],
    check = check_long,
  },
}
