--- The slab of the job against what its recipes are made for.
local chain = require "core.chain"
local exposure = require "native.exposure"

local FIELDS = { "hardness", "age", "humidity", "strength", "flatness" }
local MEASURES = { hardness = "mohs hardness", humidity = "relative humidity", flatness = "flatness" }

local function recipes_of(job)
  local list, seen = {}, {}
  for _, area in ipairs(job.areas) do
    if area.recipe and not seen[area.recipe] then
      seen[area.recipe] = true
      list[#list + 1] = area.recipe
    end
  end
  return list
end

local function check_suits(job, report)
  for _, recipe in ipairs(recipes_of(job)) do
    for _, field in ipairs(FIELDS) do
      local found, at = chain.inner(job, "slab", field)
      local window, suits_at = chain.inner(recipe, "suits", field)
      local low, high = window and window.low, window and window.high
      if found and ((low and found < low) or (high and found > high)) then
        report { at = at, message = ("a slab's %s of %s is not what %s suits: %s"):format(field, found, recipe.name,
          low and high and ("%s to %s"):format(low, high) or low and ("at least %s"):format(low)
            or ("at most %s"):format(high)),
          labels = { { at = suits_at, text = "made for these" } } }
      end
    end
  end
end

local function is_read(recipe, field)
  for _, step in ipairs(recipe.steps) do
    if step.word == "check" and chain.get(step, "measure") == MEASURES[field] then return true end
  end
  return false
end

local function check_known(job, report)
  for _, recipe in ipairs(recipes_of(job)) do
    for _, field in ipairs { "hardness", "humidity", "flatness" } do
      local suits, at = chain.inner(recipe, "suits", field)
      if suits and not chain.inner(job, "slab", field) and not is_read(recipe, field) then
        report { on = job,
          message = ("%s suits only some slabs by %s; the job does not say it and no check reads it"):format(
            recipe.name, field),
          labels = { { at = at, text = "asked here" } }, help = ("say it: slab = { %s = ... }"):format(field) }
      end
    end
  end
end

-- Where a recipe has its own limit, slab-suits tells.
local function says_itself(job, field)
  for _, recipe in ipairs(recipes_of(job)) do if chain.inner(recipe, "suits", field) then return true end end
  return false
end

local function check_age(job, report)
  local age, at = chain.inner(job, "slab", "age")
  local least = exposure.limit("age.polish").low
  if age and age:to("d") < least and not says_itself(job, "age") then
    report { at = at,
      message = ("the slab is %g days old; %g are the least, or until the machine dislodges no aggregate"):format(
        age:to("d"), least) }
  end
end

local function check_strength(job, report)
  local strength, at = chain.inner(job, "slab", "strength")
  local least = exposure.limit("strength.polish").low
  if strength and strength:to("psi") < least and not says_itself(job, "strength") then
    report { at = at, message = ("a slab of %s is under the %g psi that polishing asks for"):format(strength, least) }
  end
end

local function check_coating(job, report)
  local coating, at = chain.inner(job, "slab", "coating")
  for _, recipe in ipairs(coating and recipes_of(job) or {}) do
    local first = chain.tools(recipe)[1]
    if first and first.tool.bond ~= "metal" and first.tool.bond ~= "scraper" then
      report { on = first.step, field = "bond",
        message = ("%s lies on the slab, and %s begins with a %s tool"):format(coating, recipe.name,
        first.tool.bond), labels = { { at = at, text = "on the slab" } } }
    end
  end
end

local function check_air(job, report)
  local entrained, at = chain.inner(job, "slab", "air_entrained")
  if entrained then report { at = at,
    message = "the slab is air-entrained or lightweight: guides for polishing exclude it" } end
end

local function narrowest(job, step)
  local least
  for _, machine in ipairs(job.machines) do
    local width = chain.number(machine, "width", "m")
    for _, work in ipairs(width and chain.get(machine, "does") or {}) do
      if work == step.word and (not least or width < least) then least = width end
    end
  end
  return least
end

local function check_fits(job, report)
  for _, area in ipairs(job.areas) do
    local length, width = chain.number(area, "length", "m"), chain.number(area, "width", "m")
    local side = length and width and math.min(length, width)
    for _, entry in ipairs(side and area.recipe and chain.tools(area.recipe) or {}) do
      local head = narrowest(job, entry.step)
      if head and head > side then
        report { on = area, field = width <= length and "width" or "length",
          message = ("no head for %s fits area %s: the narrowest is %.2f m, the area %.2f m"):format(
            entry.step.name, area.name, head, side) }
        break
      end
    end
  end
end

local function check_mock_up(job, report)
  local size = chain.number(job, "mock_up", "sqft")
  if size and size < 100 then
    report { field = "mock_up",
      message = ("a mock-up of %.0f sqft is too small to judge; 100 sqft is the least"):format(size) }
  end
  if chain.written(job, "mock_up") then return end
  for _, recipe in ipairs(recipes_of(job)) do
    local exposure_class, at = chain.promise(recipe, "exposure")
    local appearance = chain.promise(recipe, "appearance")
    if (exposure_class and exposure_class ~= "cream") or appearance == "highly polished" then
      report { on = job,
        message = ("%s promises what only a mock-up can settle, and the job has none"):format(recipe.name),
        labels = { { at = at or recipe.record.at.finish, text = "promised here" } } }
      return
    end
  end
end

return {
  {
    id = "slab-suits", level = "error", scope = "job",
    says = "the slab lies inside the windows that each recipe suits",
    basis = "the recipe says what it is made for", status = "common practice",
    help = "take another recipe, or tailor this one",
    bad = [[
      slab = { hardness = 7 },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { suits = { hardness = between(3, 5) },
        hone "100" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    good = [[
      slab = { hardness = 4 },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { suits = { hardness = between(3, 5) },
        hone "100" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    check = check_suits,
  },
  {
    id = "slab-unread", level = "warning", scope = "job",
    says = "what a recipe asks of a slab is known or read before work",
    basis = "an unread slab is a guess", status = "common practice",
    help = "say it in `slab`, or read it in a check",
    bad = [[
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { suits = { hardness = between(3, 5) },
        hone "100" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    good = [[
      slab = { hardness = 4 },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { suits = { hardness = between(3, 5) },
        hone "100" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    check = check_known,
  },
  {
    id = "slab-age", level = "warning", scope = "job",
    says = "a slab is 28 days old before it is polished",
    basis = "guide specification", status = "confirmed",
    help = "wait, or prove on a spot that the machine dislodges no aggregate",
    bad = [[
      slab = { age = "10 d" },
    ]],
    good = [[
      slab = { age = "60 d" },
    ]],
    check = check_age,
  },
  {
    id = "slab-strength", level = "warning", scope = "job",
    says = "a slab has a compressive strength of 3,500 psi",
    basis = "one guide specification; 3,500-4,500 psi is usual", status = "confirmed",
    help = "settle it on a mock-up",
    bad = [[
      slab = { strength = "2500 psi" },
    ]],
    good = [[
      slab = { strength = "4000 psi" },
    ]],
    check = check_strength,
  },
  {
    id = "slab-coating", level = "error", scope = "job",
    says = "a coated slab is opened with scrapers or metal",
    basis = "scraper segments and metal take off glue and coatings", status = "common practice",
    help = "put a scraper or metal step first",
    bad = [[
      slab = { coating = "carpet glue" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    good = [[
      slab = { coating = "carpet glue" },
      area "hall" { length = "20 ft", width = "20 ft",
        recipe = recipe "r" { grind "40" { grit = 40, bond = "metal", passes = 2 } } },
    ]],
    check = check_coating,
  },
  {
    id = "slab-air", level = "warning", scope = "job",
    says = "the slab is of normal-weight concrete without entrained air",
    basis = "guide specifications for polishing exclude the others", status = "confirmed",
    help = "settle it on a mock-up, in writing",
    bad = [[
      slab = { air_entrained = true },
    ]],
    good = [[
      slab = { air_entrained = false },
    ]],
    check = check_air,
  },
  {
    id = "machine-fits", level = "error", scope = "job",
    says = "some head for each step is narrower than the area",
    basis = "geometry", status = "computed",
    help = "add a smaller machine, or give the work to the edges",
    bad = [[
      area "niche" { length = "20 ft", width = "2 ft",
        recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    good = [[
      area "aisle" { length = "20 ft", width = "8 ft",
        recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    check = check_fits,
  },
  {
    id = "mock-up", level = "warning", scope = "job",
    says = "exposed aggregate and high polish are settled on a mock-up of 100 sqft on the same slab",
    basis = "two guide specifications; trade press on using the same slab", status = "confirmed",
    help = 'add mock_up = "100 sqft"',
    bad = [[
      mock_up = "20 sqft",
    ]],
    good = [[
      mock_up = "100 sqft",
    ]],
    check = check_mock_up,
  },
}
