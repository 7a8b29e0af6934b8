--- Guard: last, thin, left alone until it is set.
local chain = require "core.chain"
local chemistry = require "native.chemistry"
local mending = require "core.mending"

local GUARD = { guard = true }

local function check_last(step, report, recipe, i)
  local cut = chain.later(recipe, i, function(later) return chain.tool(later) and later.word ~= "burnish" end)
  if cut then
    report { on = cut, message = ("%s cuts off the guard"):format(cut.name),
      labels = { { on = step, text = "laid here" } } }
  end
end

local function check_rest(step, report, recipe, i)
  local least = chemistry.opens_after "light foot" * 60
  local minutes = chain.rest_min(step)
  for k = i + 1, #recipe.steps do
    if recipe.steps[k].word == "guard" then return end
    minutes = minutes + chain.rest_min(recipe.steps[k])
  end
  if minutes < least then
    report { on = step,
      fix = mending.last(recipe, ('wait %%s { time = "%g h" }'):format(least / 60), "before shoes"),
      message = ("%s rests for %g min before the floor is handed over; light foot traffic waits %g min"):format(
        step.name,
      minutes, least) }
  end
end

local UNDER = { densify = true, dye = true, stain = true }

local function check_under(step, report, recipe, i)
  for k = 1, i - 1 do
    if recipe.steps[k].word == "guard" then
      report { on = step, message = ("%s goes onto %s, which keeps it out of the slab"):format(step.name,
        recipe.steps[k].name), labels = { { on = recipe.steps[k], text = "the guard" } } }
      return
    end
  end
end

return {
  {
    id = "guard-last", level = "error", scope = "recipe",
    says = "no abrasive but a burnish follows a guard",
    basis = "guard after the finest grit and the final clean", status = "common practice",
    help = "move the guard behind the last abrasive",
    bad = [[
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
      polish "800" { grit = 800, bond = "resin", passes = 4 },
      wait "set" { time = "2 h" },
    ]],
    good = [[
      polish "800" { grit = 800, bond = "resin", passes = 4 },
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
      wait "set" { time = "2 h" },
    ]],
    check = chain.each(GUARD, check_last),
  },
  {
    id = "guard-rest", level = "warning", scope = "recipe",
    says = "the recipe leaves a guard alone until light foot traffic may go on it",
    basis = "light foot 2-4 h after the last coat", status = "common practice",
    help = 'end with: wait "before shoes" { time = "2 h" }',
    bad = [[
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
      wait "before shoes" { time = "2 h" },
    ]],
    check = chain.each(GUARD, check_rest),
  },
  {
    id = "coat-order", level = "error", scope = "recipe",
    says = "no densifier, dye or stain comes after a guard",
    basis = "guard after the finest grit and the final clean: it closes the pores", status = "common practice",
    help = "move it before the guard",
    bad = [[
      clean "wash" { with = "water", dry = "1 h" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
      wait "set" { time = "2 h" },
      clean "dust" { with = "vacuum" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      clean "wash" { with = "water", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
      clean "dust" { with = "vacuum" },
      guard "guard" { with = "stain guard", spread = "1500 sqft/gal", dry = "1 h" },
      wait "set" { time = "2 h" },
    ]],
    check = chain.each(UNDER, check_under),
  },
}
