--- Densifier: in its place, in its dose, in its time.
local chain = require "core.chain"
local quantity = require "native.quantity"

local BANDS = { -- facts of the trade, common practice: floor per volume
  ["sodium silicate"] = { "150 sqft/gal", "300 sqft/gal" },
  ["potassium silicate"] = { "200 sqft/gal", "500 sqft/gal" },
  ["lithium silicate"] = { "400 sqft/gal", "800 sqft/gal" },
  ["colloidal silica"] = { "400 sqft/gal", "800 sqft/gal" },
}

local function check_spread(step, report)
  local spread, band = chain.get(step, "spread"), BANDS[chain.get(step, "with")]
  if not spread or not band then return end
  local low, high = quantity.read(band[1]), quantity.read(band[2])
  local out = (spread.low and spread.low < low) and spread.low or (spread.high and spread.high > high) and spread.high
  if out then
    report { at = chain.at(step, "spread"), message = ("%s of %s is outside its usual %s to %s"):format(out,
      chain.get(step, "with"), low, high), help = "follow the product's data sheet and an absorption test on the slab" }
  end
end

return {
  {
    id = "densifier-place", level = "warning", scope = "recipe",
    says = "the densifier comes before the second, third or fourth abrasive of a chain, while the floor is still open",
    basis = "before the second, third or fourth pass (supplier guide); usually after 80 to 200 (common practice)",
    check = function(recipe, report)
      local finest
      for _, step in ipairs(recipe.steps) do
        local tool = chain.tool(step)
        if tool then finest = tool.grit > (finest and finest.grit or 0) and { grit = tool.grit, step = step } or finest end
        if step.word == "densify" and finest and finest.grit >= 800 and not recipe.densified then
          report { at = chain.at(step, "name"), message = ("%s comes after grit %g, when the surface has closed"):format(
            step.name, finest.grit), labels = { { at = chain.at(finest.step, "grit"), text = "already this fine" } },
            help = "densify once the first scratches are out, usually after 80 to 200" }
        end
        if step.word == "densify" then finest = nil; break end
      end
    end,
  },
  {
    id = "densifier-spread", level = "warning", scope = "step",
    says = "a densifier is spread inside the usual band of its chemistry",
    basis = "common practice, no source: sq ft per gallon by chemistry",
    check = function(step, report) if step.word == "densify" then check_spread(step, report) end end,
  },
  {
    id = "densifier-dwell", level = "warning", scope = "step",
    says = "a densifier is given a time to react: a dwell or a drying time",
    basis = "common practice: 15 to 60 min by chemistry; the product's data sheet goes first",
    check = function(step, report)
      if step.word == "densify" and not chain.get(step, "dwell") and not chain.get(step, "dry") and not step.record.faults then
        report { at = chain.at(step, "name"), message = ("%s says neither dwell nor dry"):format(step.name),
          help = 'add dwell = between("25 min", "45 min")' }
      end
    end,
  },
}
