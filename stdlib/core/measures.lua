--- What a check can read, and in what it is told.
local object = require "core.object"
local quantity = require "native.quantity"
local finding = require "core.finding"

local measures = {
  names = { "gloss 60", "gloss 20", "gloss 85", "image clarity", "haze", "mohs hardness", "roughness",
    "relative humidity", "moisture emission", "wet slip", "flatness", "levelness", "surface temperature",
    "dew point margin", "water absorption", "colour" },
}

--- A reading: a plain number in the measure's own scale, or a quantity in text.
measures.reading = { says = "a reading", examples = { "45", "60" } }

function measures.reading.read(v, slot)
  if type(v) == "number" and v == v and v - v == 0 then return v end
  if quantity.is(v) then return v end
  if type(v) ~= "string" then
    finding.error { code = "type", at = slot.at,
      message = ("`%s` of %s needs a reading, got %s"):format(slot.field, slot.owner, object.describe(v)),
      help = "write a number, or a number with its unit" }
    return nil
  end
  local q, message, help, first, last = quantity.read(v, slot.metric, slot.currency)
  if not q then
    finding.error { code = "unit", at = finding.within(slot.at, first, last),
      message = ("`%s` of %s: %s"):format(slot.field, slot.owner, message), help = help ~= "" and help or nil }
  end
  return q
end

return measures
