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
  if q then return q end
  local range = slot.window and require("core.respelt").numbers(v)
  finding.error { code = "unit", at = finding.within(slot.at, first, last),
    message = ("`%s` of %s: %s"):format(slot.field, slot.owner, message),
    help = range and "write " .. range or help ~= "" and help or nil,
    fix = range and finding.is_quoted(slot.at, v) and range or nil, fix_at = slot.at, safe = true }
  return nil
end

-- Measures with a scale of their own: a reading is a number on it.
local SCALED = { ["gloss 60"] = true, ["gloss 20"] = true, ["gloss 85"] = true, ["image clarity"] = true, haze = true,
  ["mohs hardness"] = true, ["wet slip"] = true, flatness = true, levelness = true }

-- A reading as a number on such a scale, nil if it is none: 45, "45", "45 GU", "45 %".
local function on_scale(reading)
  if type(reading) == "number" then return reading end
  for _, kind in ipairs { { "gloss", "GU" }, { "plain number", "" }, { "fraction", "%" } } do
    if reading:fits(kind[1]) then return reading:to(kind[2]) end
  end
end

--- Makes numbers of what a check wants, where its measure has a scale; refuses what is none, and goes on without.
function measures.settle(step)
  local want, measure = step.record.values.want, step.record.values.measure
  if not want or not SCALED[measure] then return end
  for _, which in ipairs { "low", "high" } do
    local reading = want[which]
    want[which] = reading and on_scale(reading)
    if reading and not want[which] then
      finding.error { code = "unit", at = step.record.at.want or step.at,
        message = ("%s is read as a number, got %s"):format(measure, reading), help = "write the number without a unit" }
      step.record.values.want = nil
      return
    end
  end
end

return measures
