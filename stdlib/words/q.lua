--- q "12 ft": a quantity for arithmetic.
local finding = require "core.finding"
local object = require "core.object"
local place = require "native.place"
local quantity = require "native.quantity"
local value = require "core.value"

return {
  kind = "value",
  says = "a quantity to reckon with; fields take the text itself",
  example = 'q "12 ft" * q "10 ft"',
  make = function(text)
    if quantity.is(text) or value.is_unknown(text) then return text end
    if type(text) ~= "string" then
      finding.error { code = "unit", at = place.caller(1),
        message = "`q` needs a text with number and unit, got " .. object.describe(text), help = 'write q "12 ft"' }
      return value.new_unknown()
    end
    local result, message, help = quantity.read(text)
    if result then return result end
    finding.error { code = "unit", at = place.caller(1), message = message, help = help ~= "" and help or nil }
    return value.new_unknown()
  end,
}
