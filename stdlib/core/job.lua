--- Reading a job: its head, its people and machines, its areas with their recipes.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local recipe = require "core.recipe"
local record = require "core.record"
local risk = require "core.risk"
local settings = require "core.settings"
local types = require "core.types"
local waivers = require "core.waivers"
local words = require "core.words"

local job = {}

local hours_of_shift = {
  { "hours", types.hours, says = "from and to", required = true, example = '"22:00 to 06:00"' },
  { "days", types.weekdays, says = "days on which it begins", example = '{ "mon", "tue", "wed", "thu", "fri" }' },
  { "night", types.flag, says = "its hours earn the night premium", default = false,
    basis = "a day shift unless said" },
}

job.fields = {
  { "units", types.choice { "us", "metric" }, says = "units of this job and its papers", required = true,
    example = '"us"' },
  { "currency", types.currency, says = "ISO 4217 code", default = "USD",
    basis = "US dollars unless said" },
  { "start", types.instant, says = "the first hour of work", required = true, example = '"2027-03-01 18:00"' },
  { "finish_by", types.instant, says = "when all must be done" },
  { "shifts", types.map(types.record(hours_of_shift, "a shift: { hours = ... }")), says = "shifts by name",
    required = true, example = '{ night = { hours = "22:00 to 06:00" } }' },
  { "site", types.record {
    { "hours", types.hours, says = "the only hours of the day in which anybody may work" },
    { "days", types.weekdays, says = "the days on which those hours begin" },
    { "closed", types.list(types.date), says = "days without work", example = '{ "2027-03-07" }' },
    { "indoors", types.flag, says = "closed in, so that dust and vapour stay", default = true,
      basis = "indoors unless said" },
    { "height", types.quantity("length", { least = "6 ft", most = "300 ft" }), says = "clear height of the rooms",
      example = '"14 ft"' },
    { "fresh_air", types.quantity("flow"), says = "measured fresh air of each room while work goes on",
      example = '"2000 cfm"' },
    { "lighting", types.quantity("fraction"), says = "light during the work, as a share of the finished lighting",
      example = '"60 %"' },
    { "water", types.flag, says = "is there a water supply?", default = true, basis = "water on site unless said" },
    { "slurry", types.choice { "settled and reused", "solidified", "licensed hauler", "permitted sewer" },
      says = "where the slurry goes", example = '"licensed hauler"' },
    { "circuits", types.list(types.record {
      { "amps", types.quantity("current", { least = "1 A", most = "1000 A" }), says = "of its breaker",
        required = true,
        example = '"20 A"' },
      { "volts", types.quantity("voltage", { least = "1 V", most = "1000 V" }), says = "its voltage",
        required = true,
        example = '"120 V"' },
      { "phases", types.choice { "single", "three" }, says = "its phases", default = "single",
        basis = "single phase unless said" },
      { "gfci", types.flag, says = "has ground-fault protection", default = false, basis = "none unless said" },
      { "permanent", types.flag, says = "is it permanent wiring of the building?", default = false,
        basis = "temporary unless said" },
    }, "a list of circuits: { { amps = ..., volts = ... } }"), says = "circuits that the machines may use" },
    { "generator", types.quantity("power", { least = "1 kW", most = "2000 kW" }),
      says = "prime rating of the generator",
      example = '"60 kW"' },
    { "altitude", types.quantity("length", { least = "0 ft", most = "16000 ft" }), says = "height above the sea",
      default = "0 ft", basis = "near sea level unless said" },
  }, says = "the site" },
  { "slab", types.record {
    { "hardness", types.number(1, 10), says = "Mohs hardness of the paste" },
    { "age", types.quantity("time"), says = "age at the start of work" },
    { "humidity", types.quantity("fraction"), says = "relative humidity in the slab" },
    { "strength", types.quantity("pressure"), says = "compressive strength" },
    { "flatness", types.number(1, 150), says = "floor flatness number FF (ASTM E1155)" },
    { "coating", types.text(), says = "what lies on it: glue, paint, an old coating", example = '"carpet glue"' },
    { "air_entrained", types.flag, says = "made with entrained air, or of lightweight concrete", default = false,
      basis = "normal-weight concrete unless said" },
  }, says = "the slab as found" },
  { "climate", types.record {
    { "air", types.quantity("temperature"), says = "air temperature", required = true, example = '"68 F"' },
    { "humidity", types.quantity("fraction", { least = "1 %", most = "100 %" }),
      says = "relative humidity of the air",
      required = true, example = '"55 %"' },
    { "surface", types.quantity("temperature"), says = "temperature of the floor's surface", required = true,
      example = '"64 F"' },
    { "wind", types.quantity("speed"), says = "moving air half a metre above the floor", default = "2 mph",
      basis = "still indoor air with doors in use; " .. "common practice, no source", example = '"2 mph"' },
  }, says = "air and floor while materials go on" },
  { "mock_up", types.quantity("area"), says = "agreed trial area on the slab that will be polished",
    example = '"100 sqft"' },
  { "move", types.quantity("time", { least = "0 min", most = "8 h" }),
    says = "to bring a machine into an area, each abrasive step, where the job has several areas",
      default = "10 min",
    basis = "common practice, no source" },
  { "prices", types.document("prices"), says = "the price book" },
  { "rules", types.list(types.document("rule")), says = "rules of the shop on top of the built-in ones" },
  { "risk", types.record(risk.fields), says = "what is uncertain of the job as a whole (see docs/risk.md)",
    example = '{ production = about("85 %", "100 %", "115 %") }' },
  { "note", types.text(), says = "words about the job" },
  { "client", types.text(), says = "who the bid is for" },
  { "place", types.text(), says = "where the floor is" },
  { "contractor", types.text(), says = "who makes the bid, as the proposal shall name them",
    example = '"Alder Floors, 7 Mill Road"' },
  { "dated", types.date, says = "the date on the papers of the bid", example = '"2027-02-15"' },
  { "terms", types.list(types.text()), says = "what the proposal asks and offers besides: payment, how long it stands",
    example = '{ "half at the start, the rest at hand-over", "open for 30 days" }' },
  { "excludes", types.list(types.text()), says = "what the price does not cover",
    example = '{ "moving of racks" }' },
  { "allowances", types.map(types.quantity("money")), says = "sums the price carries for what cannot be known yet",
    example = '{ ["crack repair"] = "$500" }' },
}

-- The only one of a list that has a name, as a text in quotes.
local function only(list)
  return list and #list == 1 and not list[1].name:find('["\\%c]') and ('"%s"'):format(list[1].name) or nil
end

-- A crew's shift and an alternate's area are certain where the job has one of them.
local function meant(context, field)
  local one = field == "shift" and only(context.shifts) or field == "area" and only(context.areas) or nil
  return one, one ~= nil
end

local function read_part(data, context)
  local part = { word = data.word, name = data.name, at = data.at, name_at = data.name_at, raw = data.raw }
  part.record = record.read(data.raw, data.definition.fields, { owner = document.label(data),
    at = data.name_at ~= 0 and data.name_at or data.at, metric = context.metric, currency = context.currency,
    table_at = data.table_at, meant = meant, shifts = context.shifts, areas = context.areas })
  return part
end

local function size_of(part)
  local values = part.record.values
  local rectangle = values.length and values.width
  if part.record.faults then return end
  if not rectangle and not values.area then
    local half = values.length and "width" or values.width and "length"
    finding.error { code = "missing", at = part.record.place,
      message = document.label(part) .. " needs a " .. (half or "size"),
      help = 'a floor is length = "60 ft", width = "40 ft", or area and edges' }
  elseif rectangle and values.area then
    finding.error { code = "field", at = part.record.at.area,
      message = document.label(part) .. " has both length x width and `area`", help = "keep one of them" }
  elseif values.area and not values.edges then
    finding.error { code = "missing", at = part.record.place,
      message = document.label(part) .. " gives an `area` but no `edges`",
      help = 'say how much wall and column edge there is: edges = "200 ft" (or "0 ft")' }
  end
end

local function read_recipe(part)
  local data = part.record.values.recipe
  if not data then return end
  local own = settings.read(part.raw.fields.set)
  part.recipe = own and recipe.with_settings(data, own) or data
end

local function read_area(part)
  size_of(part)
  read_recipe(part)
end

local function refuse_unknown_shift(part, shifts)
  local wanted = part.record.values.shift
  if not wanted or not shifts then return end
  local names = {}
  for i, shift in ipairs(shifts) do names[i] = shift.name end
  for _, name in ipairs(names) do if name == wanted then return end end
  part.record.faults = true
  local at = part.record.at.shift
  finding.error { code = "choice", at = at, fix = finding.respelling(at, wanted, names),
    message = ("no shift is called `%s`"):format(wanted),
    help = finding.did_you_mean(wanted, names) or "the shifts are " .. finding.choices(names) }
end

local function refuse_unknown_machine(part, machines)
  local wanted = part.record.values.machine
  if not wanted then return end
  local names = {}
  for i, machine in ipairs(machines) do names[i] = machine.name end
  for _, name in ipairs(names) do if name == wanted then return end end
  local at = part.record.at.machine
  finding.error { code = "choice", at = at, fix = finding.respelling(at, wanted, names),
    message = ("no machine of the job is called `%s`"):format(wanted),
    help = finding.did_you_mean(wanted, names) or "the machines are " .. finding.choices(names) }
end

local function refuse_unknown_area(part, areas)
  local wanted = part.record.values.area
  if not wanted then return end
  local names = {}
  for i, area in ipairs(areas) do names[i] = area.name end
  for _, name in ipairs(names) do if name == wanted then return end end
  finding.error { code = "choice", at = part.record.at.area, message = ("no area of the job is called `%s`"):format(wanted),
    help = finding.did_you_mean(wanted, names) or "the areas are " .. finding.choices(names) }
end

local function sort_part(entry, data, context)
  local part = read_part(entry, context)
  if part.word == "area" then
    read_area(part)
    data.areas[#data.areas + 1] = part
  elseif part.word == "crew" then
    refuse_unknown_shift(part, data.record.values.shifts)
    data.crews[#data.crews + 1] = part
  elseif part.word == "alternate" then
    part.recipe = part.record.values.recipe
    data.alternates[#data.alternates + 1] = part
  else
    data.machines[#data.machines + 1] = part
  end
end

local function called(parts, word)
  local list = {}
  for _, part in ipairs(parts) do if part.word == word then list[#list + 1] = part end end
  return list
end

local function sort_parts(data, parts, context)
  context.shifts, context.areas = data.record.values.shifts, called(parts, "area")
  for _, entry in ipairs(parts) do finding.of(document.label(entry), sort_part, entry, data, context) end
end

-- A step may ask for a machine by name; the recipe cannot know what the job has.
local function refuse_unknown_machines(data)
  local names, known = {}, {}
  for i, machine in ipairs(data.machines) do
    names[i], known[machine.name] = machine.name, true
  end
  for _, area in ipairs(data.areas) do
    for _, step in ipairs(area.recipe and area.recipe.steps or {}) do
      local wanted = step.record.values.machine
      if wanted and not known[wanted] then
        finding.error { code = "machine", at = step.record.at.machine,
          message = ("%s asks for a machine `%s`, which the job does not have"):format(
            document.label(step), wanted),
          labels = { { at = area.name_at, text = "done in this area" } },
          help = finding.did_you_mean(wanted, names) or "the machines are " .. finding.choices(names) }
      end
    end
  end
end

local function refuse_empty(data, list, word, example)
  if #list == 0 and not data.incomplete then
    finding.error { code = "empty", at = data.at, message = ("%s has no %s"):format(document.label(data), word),
      help = "add " .. example }
  end
end

--- Puts a recipe in the place of the one of an area; of every area, if none is named.
function job.stand_in(data, other, area)
  local names = {}
  for i, part in ipairs(data.areas) do
    names[i] = part.name
    if not area or part.name == area then
      part.record.values.recipe = other
      read_recipe(part)
    end
  end
  for _, name in ipairs(names) do if name == area then return end end
  if area then
    finding.error { code = "choice", at = data.at, message = ("no area of the job is called `%s`"):format(area),
      help = finding.did_you_mean(area, names) or "the areas are " .. finding.choices(names) }
  end
end

--- The word's builder: job "name" { fields, crews, machines, areas }.
function job.from_script(from)
  local units = from.raw.fields.units
  local context = { metric = units ~= nil and units.value == "metric",
    currency = types.currency_of(from.raw.fields.currency) }
  local data = { word = "job", name = from.name, at = from.at, name_at = from.name_at, raw = from.raw,
    areas = {}, crews = {}, machines = {}, alternates = {} }
  data.record = record.read(from.raw, job.fields, { owner = document.label(data),
    at = from.name_at ~= 0 and from.name_at or from.at, metric = context.metric, currency = context.currency })
  local parts = document.items(from.raw, words.part, document.label(data), "areas, crews, machines and waivers")
  data.incomplete = parts.incomplete
  data.waivers = waivers.read(parts.waivers, context.metric)
  sort_parts(data, parts, context)
  for _, part in ipairs(data.areas) do refuse_unknown_machine(part, data.machines) end
  if not data.incomplete then refuse_unknown_machines(data) end
  for _, part in ipairs(data.alternates) do refuse_unknown_area(part, data.areas) end
  document.refuse_twins(data.areas, "areas")
  document.refuse_twins(data.alternates, "alternates")
  document.refuse_twins(data.crews, "crews")
  document.refuse_twins(data.machines, "machines")
  refuse_empty(data, data.areas, "area", 'area "lobby" { ... }')
  refuse_empty(data, data.crews, "crew", 'crew "operator" { ... }')
  return object.new(document.class, data)
end

return job
