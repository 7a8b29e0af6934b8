--- Joints of a job: filled on a slab that is old enough, and in the areas that have some.
local chain = require "core.chain"
local exposure = require "native.exposure"

local function fills(recipe)
  for _, step in ipairs(recipe.steps) do if step.word == "fill" then return step end end
  return nil
end

local function check_joint_age(job, report)
  local age, at = chain.inner(job, "slab", "age")
  local days = age and age:to("d")
  for _, area in ipairs(days and job.areas or {}) do
    local step = area.recipe and fills(area.recipe)
    local maker, advised = exposure.limit("age.joint.maker").low, exposure.limit("age.joint.aci").low
    if step and days < advised then
      report { on = area, at = at, level = days < maker and "error" or "warning",
        message = ("the joints of %s are filled at %g days; makers ask "
        .. "for %g, ACI 302.1R-15 advises %g"):format(area.name, days, maker, advised),
          labels = { { on = step, text = "filled here" } } }
    end
  end
end

local function check_joints(job, report)
  for _, area in ipairs(job.areas) do
    local joints = chain.number(area, "joints", "ft")
    local step = area.recipe and fills(area.recipe)
    if step and joints == 0 then
      report { on = area, message = ("%s fills joints, and area %s has none"):format(step.name, area.name),
        labels = { { on = step, text = "fills them" } }, help = 'say how much there is: joints = "96 ft"' }
    elseif joints and joints > 0 and area.recipe and not step then
      report { on = area, field = "joints",
        message = ("area %s has %g ft of joints, and its recipe fills none"):format(area.name, joints),
        help = "add a fill step to the recipe, or leave the joints out" }
    end
  end
end

return {
  {
    id = "joint-age", level = "warning", scope = "job",
    says = "joints are filled on a slab of 28 days at least, better of 90",
    basis = "fillers' makers ask for 28 days, ACI 302.1R-15 advises 90; association position statement",
    status = "confirmed",
    help = "filler put in early separates as the slab shrinks: fill later, or agree on a second visit",
    bad = [[
      slab = { age = "40 d" },
      area "hall" { length = "20 ft", width = "20 ft", joints = "20 ft", recipe = recipe "r" {
        grind "80" { grit = 80, bond = "metal", passes = 3 }, clean "dust" { with = "vacuum" },
        fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
        hone "flush" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    good = [[
      slab = { age = "120 d" },
      area "hall" { length = "20 ft", width = "20 ft", joints = "20 ft", recipe = recipe "r" {
        grind "80" { grit = 80, bond = "metal", passes = 3 }, clean "dust" { with = "vacuum" },
        fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
        hone "flush" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    check = check_joint_age,
  },
  {
    id = "joints-meant", level = "warning", scope = "job",
    says = "areas with joints have recipes that fill them, and the other way round",
    basis = "what is measured is meant to be done", status = "common practice",
    help = "make area and recipe agree",
    bad = [[
      area "hall" { length = "20 ft", width = "20 ft", joints = "60 ft",
        recipe = recipe "r" { hone "100" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    good = [[
      area "hall" { length = "20 ft", width = "20 ft", joints = "20 ft", recipe = recipe "r" {
        grind "80" { grit = 80, bond = "metal", passes = 3 }, clean "dust" { with = "vacuum" },
        fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" },
        hone "flush" { grit = 100, bond = "resin", passes = 4 } } },
    ]],
    check = check_joints,
  },
}
