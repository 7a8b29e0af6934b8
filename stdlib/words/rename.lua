--- rename("800", "fine"): in a tailored recipe, gives a step another name.
local object = require "core.object"
local finding = require "core.finding"
local place = require "native.place"
local value = require "core.value"
local words = require "core.words"

return {
  kind = "override",
  says = "gives a named step another name",
  example = 'rename("800", "fine")',
  make = function(name, to)
    local at = place.caller(1)
    if type(name) ~= "string" or type(to) ~= "string" then
      finding.error { code = "form", at = at, message = "`rename` needs the old name and the new one",
        help = 'write rename("800", "fine")' }
      return value.new_unknown()
    end
    return object.new(words.override, { word = "rename", name = name, to = to, at = at, name_at = 0, to_at = at,
      raw = { fields = {}, items = {} } })
  end,
}
