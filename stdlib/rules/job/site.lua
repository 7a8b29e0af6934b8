--- What the site must give: light, water, power, a way for the slurry, more than one person.
local chain = require "core.chain"
local supply = require "native.supply"

local function wet_steps(job)
  for _, area in ipairs(job.areas) do
    for _, step in ipairs(area.recipe and area.recipe.steps or {}) do
      if chain.is_wet(step) then return step end
    end
  end
  return nil
end

local function check_light(job, report)
  local light, at = chain.inner(job, "site", "lighting")
  if light and light:to("%") < 50 then
    report { at = at,
      message = ("the light is %s of the finished lighting; half of it is the least"):format(light) }
  end
end

local function check_water(job, report)
  local water, at = chain.inner(job, "site", "water")
  local step = wet_steps(job)
  if water == false and step then
    report { at = at, message = ("there is no water on site, and %s runs wet"):format(step.name),
      labels = { { on = step, field = "wet", text = "wet" } } }
  end
end

local function pays_slurry(job)
  local prices = chain.get(job, "prices")
  for _, extra in ipairs(prices and prices.record.values.extras or {}) do
    local per = extra.value.values.per
    if per and per:find("slurry") then return true end
  end
  return false
end

local function check_slurry(job, report)
  local step = wet_steps(job)
  if step and not chain.inner(job, "site", "slurry") and not pays_slurry(job) then
    report { on = job, message = "the job makes slurry and says nothing of where it goes",
      labels = { { on = step, field = "wet", text = "the first of it" } } }
  end
end

local function load_of(machine)
  local amps, volts = chain.number(machine, "amps", "A"), chain.number(machine, "volts", "V")
  if not amps or not volts or chain.get(machine, "fuel") == "propane" then return nil end
  return { amps = amps, volts = volts, phases = chain.get(machine, "phases") == "three" and 3 or 1,
    continuous = true,
    drive = chain.get(machine, "drive") }
end

local function circuits_of(job)
  local site = job.record.values.site
  local read = site and site.values.circuits
  if not read then return nil end
  local list = {}
  for i, circuit in ipairs(read) do
    local values = circuit.values
    if not values.amps or not values.volts then return nil end
    list[i] = { amps = values.amps:to("A"), volts = values.volts:to("V"),
      phases = values.phases == "three" and 3 or 1,
      gfci = values.gfci, permanent = values.permanent }
  end
  return list, site.at.circuits
end

local function check_gfci(job, report)
  local circuits, at = circuits_of(job)
  for i, circuit in ipairs(circuits or {}) do
    if supply.gfci(circuit) and not circuit.gfci then
      report { at = at, message = ("circuit %d, %g V and %g A, has no ground-fault protection"):format(i,
        circuit.volts, circuit.amps) }
    end
  end
end

local function check_supply(job, report)
  local site = job.record.values.site
  if site and (site.values.circuits or site.values.generator) then return end
  for _, machine in ipairs(job.machines) do
    if load_of(machine) then
      report { on = machine, field = "amps",
        message = ("%s draws %g A at %g V, and the job says nothing of what feeds it"):format(machine.name,
          chain.number(machine, "amps", "A"), chain.number(machine, "volts", "V")) }
      return
    end
  end
end

local function check_cord(job, report)
  for _, machine in ipairs(job.machines) do
    local load, cord, gauge = load_of(machine), chain.number(machine, "cord", "m"),
      chain.number(machine, "gauge", "")
    local share = load and cord and gauge and supply.drop(load, gauge, cord)
    if share and share > 0.03 then
      report { on = machine, field = "cord",
        message = ("%s loses %.1f %% of its voltage in %.0f m of AWG %d"):format(machine.name, share * 100,
        cord, gauge) }
    end
  end
end

local function check_generator(job, report)
  local rating, at = chain.inner(job, "site", "generator")
  local loads = {}
  for _, machine in ipairs(rating and job.machines or {}) do
    for _ = 1, chain.get(machine, "count") or 1 do loads[#loads + 1] = load_of(machine) end
  end
  if #loads == 0 or #loads > 16 then return end
  local low, high = supply.generator(loads, chain.inner(job, "site", "altitude"):to("m"))
  local kva = rating:to("kW") / 0.8
  if low and kva < low then
    report { at = at,
      message = ("a generator of %.0f kVA; all machines together ask for %.0f to %.0f kVA"):format(kva, low, high) }
  end
end

-- The stretches of time that machines with a known current run, by their begin: { start, finish, unit, machine,
-- load }. What runs along takes turns with the machine it follows, but is switched on and booked for as long.
local function runs_of(plan)
  local runs, loads = {}, {}
  for _, machine in ipairs(plan.job.machines) do loads[machine] = load_of(machine) end
  local function add(machine, unit, stretch)
    if not loads[machine] then return end
    runs[#runs + 1] = { start = stretch.start, finish = stretch.finish, load = loads[machine], machine = machine,
      unit = machine.name .. "/" .. unit }
  end
  for _, activity in ipairs(plan.activities) do
    for _, stretch in ipairs(activity.stretches) do
      add(activity.machine, stretch.unit, stretch)
      add(activity.along, stretch.along_unit, stretch)
    end
  end
  table.sort(runs, function(x, y)
    if x.start ~= y.start then return x.start < y.start end
    return x.unit < y.unit
  end)
  return runs
end

-- Those of `runs` that go on at `minute`, each unit once.
local function still_running(runs, minute)
  local list, seen = {}, {}
  for _, run in ipairs(runs) do
    if run.finish > minute and not seen[run.unit] then
      seen[run.unit] = true
      list[#list + 1] = run
    end
  end
  return list
end

local function names_of(runs)
  local names = {}
  for i, run in ipairs(runs) do names[i] = run.machine.name end
  return table.concat(names, ", ")
end

-- The first of the runs that finds no place on the circuits.
local function without_place(runs, circuits)
  local loads = {}
  for i, run in ipairs(runs) do loads[i] = run.load end
  for i, circuit in ipairs(#loads <= 16 and supply.carry(loads, circuits) or {}) do
    if circuit == 0 then return runs[i] end
  end
  return nil
end

local function check_circuits(plan, report)
  local circuits, at = circuits_of(plan.job)
  local running, tried = {}, {}
  local runs = circuits and runs_of(plan) or {}
  for i, run in ipairs(runs) do
    running[#running + 1] = run
    local next_run = runs[i + 1]
    if not next_run or next_run.start > run.start then
      running = still_running(running, run.start)
      local names = names_of(running)
      local left_out = not tried[names] and without_place(running, circuits)
      tried[names] = true
      if left_out then
        report { at = at, message = ("the circuits do not carry %s at the same time"):format(names),
          labels = { { on = left_out.machine, text = ("%s, %g A at %g V, finds no place"):format(left_out.machine.name,
            left_out.load.amps, left_out.load.volts) } } }
        return
      end
    end
  end
end

local function check_lone(job, report)
  local count = {}
  for _, crew in ipairs(job.crews) do
    local shift = chain.get(crew, "shift")
    if shift then count[shift] = (count[shift] or 0) + (chain.get(crew, "count") or 1) end
  end
  for _, crew in ipairs(job.crews) do
    local shift = chain.get(crew, "shift")
    if shift and count[shift] == 1 then
      report { on = crew, field = "shift", message = ("%s works alone in shift %s"):format(crew.name, shift) }
    end
  end
end

local function tank_trips(plan, report)
  for _, activity in ipairs(plan.activities) do
    local tank = activity.machine and activity.kind == "field" and chain.number(activity.machine, "tank", "L")
    local trips = tank and activity.water_l > 0 and math.ceil(activity.water_l / tank)
    if trips and trips > 6 then
      report { on = activity.machine, field = "tank",
        message = ("%s in %s uses %.0f L: %d trips of the tank"):format(
          activity.step.name, activity.area.name, activity.water_l, trips),
        labels = { { on = activity.step, field = "wet", text = "the step" } } }
    end
  end
end

return {
  {
    id = "lighting", level = "warning", scope = "job",
    says = "at least half of the finished lighting is there before work starts",
    basis = "guide specification", status = "confirmed",
    help = "bring light: scratches are found by it",
    bad = [[
      site = { lighting = "20 %" },
    ]],
    good = [[
      site = { lighting = "60 %" },
    ]],
    check = check_light,
  },
  {
    id = "water-supply", level = "error", scope = "job",
    says = "wet steps have water",
    basis = "they cannot be done without", status = "computed",
    help = "bring water, or run the step dry under dust collection",
    bad = [[
      site = { water = false },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" {
        hone "100" { grit = 100, bond = "resin", passes = 4, wet = true, edges = false,
        care = "rinse" }, collect "slurry" { within = "8 min" } } },
    ]],
    good = [[
      site = { water = true },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" {
        hone "100" { grit = 100, bond = "resin", passes = 4, wet = true, edges = false,
        care = "rinse" }, collect "slurry" { within = "8 min" } } },
    ]],
    check = check_water,
  },
  {
    id = "slurry-disposal", level = "warning", scope = "job", law = true,
    says = "a job with wet steps says where its slurry goes, or pays for it by volume",
    basis = "pH 11-13; never to a storm drain; 40 CFR 261.22 and local codes decide", status = "confirmed",
    help = 'say site = { slurry = "licensed hauler" }',
    bad = [[
      prices = prices "book" { labour = { operator = "$30/h" },
        machines = { planetary = { hour = "$20/h" }, vacuum = { hour = "$4/h" } },
        tools = { ["resin 100"] = { price = "$180", life = "6000 sqft/set" } } },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" {
        hone "100" { grit = 100, bond = "resin", passes = 4, wet = true, edges = false,
        care = "rinse" }, collect "slurry" { within = "8 min" } } },
    ]],
    good = [[
      site = { slurry = "licensed hauler" },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" {
        hone "100" { grit = 100, bond = "resin", passes = 4, wet = true, edges = false,
        care = "rinse" }, collect "slurry" { within = "8 min" } } },
    ]],
    check = check_slurry,
  },
  {
    id = "gfci", level = "error", scope = "job", law = true,
    says = "120 V single-phase receptacles of 15 and 20 A that are no permanent wiring have ground-fault "
      .. "protection",
    basis = "29 CFR 1926.404(b)(1), or a written assured equipment grounding programme; state labour department "
      .. "reprint",
    status = "confirmed",
    help = "set gfci = true once it is there; a licensed electrician decides",
    bad = [[
      site = { circuits = { { amps = "20 A", volts = "120 V" } } },
    ]],
    good = [[
      site = { circuits = { { amps = "20 A", volts = "120 V", gfci = true } } },
    ]],
    check = check_gfci,
  },
  {
    id = "cord-drop", level = "warning", scope = "job",
    says = "a machine's cord loses no more than 3 % of the voltage",
    basis = "informational note at NEC 210.19(A), not enforceable unless adopted; electrical engineering page",
    status = "confirmed",
    help = "take a heavier or shorter cord",
    bad = [[
      site = { generator = "60 kW" },
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", amps = "20 A", volts = "120 V",
        cord = "150 ft", gauge = 12 },
    ]],
    good = [[
      site = { generator = "60 kW" },
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", amps = "20 A", volts = "120 V",
        cord = "50 ft", gauge = 10 },
    ]],
    check = check_cord,
  },
  {
    id = "generator-size", level = "warning", scope = "job",
    says = "the generator carries all electric machines at once, and the largest one's start",
    basis = "running load at or below 80 % of prime rating; direct start 3-6 times", status = "common practice",
    help = "take a larger one; its maker's sizing goes first",
    bad = [[
      site = { generator = "5 kW" },
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", amps = "30 A", volts = "480 V",
        phases = "three" },
    ]],
    good = [[
      site = { generator = "200 kW" },
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", amps = "30 A", volts = "480 V",
        phases = "three" },
    ]],
    check = check_generator,
  },
  {
    id = "circuit-load", level = "warning", scope = "plan",
    says = "machines that run at the same time, and what runs along with them, find circuits that carry them",
    basis = "continuous loads at 125 %, NEC 210.20", status = "from memory",
    help = "add a circuit, or let one of the machines wait",
    bad = [[
      site = { circuits = { { amps = "16 A", volts = "230 V" } } },
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", amps = "16 A", volts = "230 V" },
    ]],
    good = [[
      site = { circuits = { { amps = "32 A", volts = "230 V" } } },
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", amps = "16 A", volts = "230 V" },
    ]],
    check = check_circuits,
  },
  {
    id = "lone-work", level = "warning", scope = "job",
    says = "nobody works alone in a shift",
    basis = "somebody must be there to help", status = "common practice",
    help = "put a second person on the shift",
    bad = [[
      crew "operator" { skills = { "any" }, shift = "day" },
    ]],
    good = [[
      crew "operator" { count = 2, skills = { "any" }, shift = "day" },
    ]],
    check = check_lone,
  },
  {
    id = "tank-trips", level = "warning", scope = "plan",
    says = "a wet step does not send its machine to fill or empty more than six times",
    basis = "each trip takes the machine off the floor; its minutes are in the plan", status = "common practice",
    help = "bring a larger tank or a hose, or lower the duty",
    bad = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", wet = true, tank = "2 L" },
      machine "vacuum" { does = { "collect" } },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" {
        hone "100" { grit = 100, bond = "resin", passes = 4, wet = true, edges = false,
        care = "rinse" }, collect "slurry" { within = "8 min" } } },
    ]],
    good = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", wet = true, tank = "200 L" },
      machine "vacuum" { does = { "collect" } },
      area "hall" { length = "20 ft", width = "20 ft", recipe = recipe "r" {
        hone "100" { grit = 100, bond = "resin", passes = 4, wet = true, edges = false,
        care = "rinse" }, collect "slurry" { within = "8 min" } } },
    ]],
    check = tank_trips,
  },
  {
    id = "power-supply", level = "warning", scope = "job",
    says = "electric machines whose current is given find circuits or a generator on the site",
    basis = "what is not asked for is not there on the first night", status = "common practice",
    help = 'say site = { circuits = { { amps = "20 A", volts = "120 V" } } }, or generator = "60 kW"',
    bad = [[
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", amps = "16 A", volts = "230 V" },
    ]],
    good = [[
      site = { circuits = { { amps = "32 A", volts = "230 V" } } },
      machine "planetary" { does = { "hone", "edges" }, width = "28 in", amps = "16 A", volts = "230 V" },
    ]],
    check = check_supply,
  },
}
