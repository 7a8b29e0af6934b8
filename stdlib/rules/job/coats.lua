--- Coats of a job: the air that they go on in, and the time they have before the floor is used.
local air = require "native.air"
local chain = require "core.chain"
local chemistry = require "native.chemistry"
local climate = require "core.climate"
local exposure = require "native.exposure"

local COATING = { guard = true, fill = true, densify = true, grout = true }

local function check_dew(job, report)
  local site, at = climate.of(job)
  if not site then return end
  local required = exposure.limit("coat.margin").low
  local margin, dew, enough = air.margin(site, required)
  for _, area in ipairs(margin and not enough and job.areas or {}) do
    for _, step in ipairs(area.recipe and area.recipe.steps or {}) do
      if COATING[step.word] then
        report { on = step, at = at,
          message = ("the floor is %.1f K %s the dew point of %.1f C; %s wants it %g K above"):format(math.abs(margin),
            margin < 0 and "below" or "above", dew, step.name, required),
          labels = { { on = step, text = "goes on in this air" } } }
      end
    end
  end
end

local function check_humid(job, report)
  local site, at = climate.of(job)
  local most = exposure.limit("coat.humidity").high
  if not site or site.humidity <= most then return end
  for _, area in ipairs(job.areas) do
    for _, step in ipairs(area.recipe and area.recipe.steps or {}) do
      if step.word == "guard" then
        report { on = step, at = at,
          message = ("%s goes on at %g %% relative humidity; most products end at %g %%"):format(step.name,
          site.humidity * 100, most * 100), labels = { { on = step, text = "goes on in this air" } } }
      end
    end
  end
end

local function minutes_of(instant, start)
  if not instant then return nil end
  local function days(d) -- days since an arbitrary day, by the civil calendar
    local y, m = d.month <= 2 and d.year - 1 or d.year, (d.month + 9) % 12
    return 365 * y + y // 4 - y // 100 + y // 400 + (m * 306 + 5) // 10 + d.day - 1
  end
  return (days(instant) - days(start)) * 1440 + instant.minute
end

local function check_open(plan, report)
  local start = chain.get(plan.job, "start")
  for _, area in ipairs(plan.job.areas) do
    local traffic = chain.get(area, "opens_to")
    local due = traffic and minutes_of(chain.get(area, "finish_by") or chain.get(plan.job, "finish_by"), start)
    for _, activity in ipairs(due and plan.activities or {}) do
      if activity.area == area and activity.step.word == "guard" and activity.kind == "apply" then
        local needs = chemistry.opens_after(traffic) * 60
        if activity.finish + needs > due then
          report { on = area, field = "opens_to",
            message = ("%s is done %.1f h before %s must open; %s needs %g h after a guard"):format(
              activity.step.name, (due - activity.finish) / 60, area.name, traffic, needs / 60) }
        end
      end
    end
  end
end

return {
  {
    id = "dew-point", level = "error", scope = "job",
    says = "materials go on a floor that is 3 K or more above the dew point of the job's climate",
    basis = "ISO 8502-4, ISO 12944-7; coating-engineering pages; written for steel, used for floors by custom",
    status = "confirmed",
    help = "warm the floor, dry the air, or wait",
    bad = [[
      climate = { air = "75 F", humidity = "80 %", surface = "70 F" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
        guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
          wait "set" { time = "2 h" } } },
    ]],
    good = [[
      climate = { air = "75 F", humidity = "50 %", surface = "72 F" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
        guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
          wait "set" { time = "2 h" } } },
    ]],
    check = check_dew,
  },
  {
    id = "guard-humid", level = "warning", scope = "job",
    says = "a guard goes on below 85 % relative humidity",
    basis = "ISO 12944-7, unless the product allows more; coating-engineering pages", status = "confirmed",
    help = "dry the air, or wait",
    bad = [[
      climate = { air = "60 F", humidity = "88 %", surface = "66 F" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
        guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
          wait "set" { time = "2 h" } } },
    ]],
    good = [[
      climate = { air = "75 F", humidity = "50 %", surface = "72 F" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
        guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
          wait "set" { time = "2 h" } } },
    ]],
    check = check_humid,
  },
  {
    id = "return-to-service", level = "warning", scope = "plan",
    says = "between the last coat of guard and the opening of an area lies the time its traffic asks for",
    basis = "light foot 2-4 h, full foot and water 24 h, wheels 48-72 h, wet cleaning with chemicals 7 d",
    status = "common practice",
    help = "open it to lighter traffic first, or finish earlier",
    bad = [[
      area "hall" { length = "20 ft", width = "20 ft", opens_to = "wheels and forks",
        finish_by = "2027-03-02 16:00",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
        guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
          wait "set" { time = "2 h" } } },
    ]],
    good = [[
      area "hall" { length = "20 ft", width = "20 ft", opens_to = "light foot", finish_by = "2027-03-02 16:00",
        recipe = recipe "r" { clean "wash" { with = "water", dry = "1 h" },
        guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
          wait "set" { time = "2 h" } } },
    ]],
    check = check_open,
  },
}
