--- param(name, default, allowed): a value that a job or a tailored recipe may set.
local finding = require "core.finding"
local place = require "native.place"
local value = require "core.value"

return {
  kind = "value",
  says = "a value that an area may set by name: set = { name = ... }",
  example = 'passes = param("field passes", 6, between(4, 10))',
  make = function(name, default, allowed)
    if type(name) ~= "string" or default == nil then
      finding.error { code = "form", at = place.caller(1),
        message = "`param` needs a name and a default", help = 'write param("field passes", 6, between(4, 10))' }
      return value.new_unknown()
    end
    return value.new_parameter { word = "param", name = name, default = default, allowed = allowed,
      at = place.caller(1) }
  end,
}
