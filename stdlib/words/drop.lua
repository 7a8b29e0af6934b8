--- drop "800": in a tailored recipe, leaves a named step out.
local object = require "core.object"
local finding = require "core.finding"
local place = require "native.place"
local value = require "core.value"
local words = require "core.words"

return {
  kind = "override",
  says = "leaves a named step out",
  example = 'drop "800"',
  make = function(name)
    local at = place.caller(1)
    if type(name) ~= "string" then
      finding.error { code = "form", at = at, message = "`drop` needs the name of a step",
        help = 'write drop "800"' }
      return value.new_unknown()
    end
    return object.new(words.override, { word = "drop", name = name, at = at, name_at = 0,
      raw = { fields = {}, items = {} } })
  end,
}
