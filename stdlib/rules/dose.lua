--- How much of a material goes on: floor per volume, by its kind.
local chain = require "core.chain"
local chemistry = require "native.chemistry"

local ROWS = { ["stain guard"] = "guard" } -- words of the language that the catalogue calls otherwise

local function check_spread(step, report)
  local with, spread = chain.get(step, "with"), chain.get(step, "spread")
  local row = with and spread and chemistry.find(ROWS[with] or with)
  if not row then return end
  for _, at in ipairs { spread.low or false, spread.high or false } do
    local figure = at and at:to("m2/L")
    if figure and (figure < row.spread_low * 0.999 or figure > row.spread_high * 1.001) then
      report { field = "spread", message = ("%s of %s is outside its usual %.0f to %.0f sqft/gal"):format(at, with,
        row.spread_low * 40.7458, row.spread_high * 40.7458) }
      return
    end
  end
end

return {
  {
    id = "spread-band", level = "warning", scope = "step", words = chain.COATS,
    says = "a densifier, dye, stain or guard is spread inside the usual band of its kind",
    basis = "floor per volume by chemistry", status = "common practice",
    help = "follow the product's data sheet and an absorption test on the slab",
    bad = [[
      clean "wash" { with = "water", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "100 sqft/gal", dry = "1 h" },
    ]],
    good = [[
      clean "wash" { with = "water", dry = "1 h" },
      densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
    ]],
    check = check_spread,
  },
}
