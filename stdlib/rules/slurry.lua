--- Wet work: slurry is taken up before it dries, and tools are rinsed before it sets.
local chain = require "core.chain"
local quantity = require "native.quantity"

local LATEST = quantity.read("15 min")

local function is_wet(step) return chain.ABRASIVE[step.word] and chain.get(step, "wet") end

local function collected(recipe, i, report)
  local step, next = recipe.steps[i], recipe.steps[i + 1]
  while next and next.word == "note" do i = i + 1; next = recipe.steps[i + 1] end
  if next and (next.word == "collect" or next.word == "clean") then
    local within = chain.get(next, "within")
    if not chain.written(next, "within") then
      report { at = chain.at(next, "within"), message = ("%s does not say how soon the slurry of %s is taken up"):format(
        next.name, step.name), help = 'add within = "8 min"',
        labels = { { at = chain.at(step, "wet"), text = "this step leaves slurry" } } }
    elseif within and not within.likely and within > LATEST then
      report { at = chain.at(next, "within"), message = ("slurry of %s may dry before it is taken up within %s"):format(
        step.name, within), help = 'take it up at once, for instance within = "8 min"' }
    end
    return
  end
  report { at = chain.at(step, "wet"), message = ("nothing takes up the slurry of %s"):format(step.name),
    help = 'follow it with: collect "slurry after ' .. step.name .. '" { within = "8 min" }',
    labels = next and { { at = chain.at(next, "name"), text = "the next step comes onto wet slurry" } } }
end

return {
  {
    id = "slurry-collect", level = "error", scope = "recipe",
    says = "every wet abrasive step is followed at once by collect or clean with a time to keep",
    basis = "common practice: pick up at once; dried slurry needs regrinding or scrubbing",
    check = function(recipe, report)
      for i, step in ipairs(recipe.steps) do
        if is_wet(step) then collected(recipe, i, report) end
      end
    end,
  },
  {
    id = "tool-care", level = "warning", scope = "step",
    says = "a wet resin step says what is done to its tools before the slurry sets",
    basis = "common practice: rinse floor and pads between every wet grit",
    check = function(step, report)
      if is_wet(step) and chain.get(step, "bond") == "resin" and not chain.get(step, "care") then
        report { at = chain.at(step, "bond"), message = ("%s runs resin tools wet and says nothing of rinsing them"):format(step.name),
          help = 'add care = "rinse the tools before the slurry sets"' }
      end
    end,
  },
}
