--- tailor(parent, "name") { ... }: a recipe made from another by naming what differs.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local place = require "native.place"
local record = require "core.record"
local tailor = require "core.tailor"
local value = require "core.value"
local words = require "core.words"

local EXAMPLE = 'tailor(require "methods.cream_wet", "dyed") { after "wash" { dye "walnut" { ... } } }'

local function finish(parent, name, caller, t)
  if not object.is_plain(t) then
    if not value.is_unknown(t) then
      finding.error { code = "form", at = caller, message = "`tailor` wants a table after its name", help = EXAMPLE }
    end
    return value.new_unknown()
  end
  words.last_built = { word = "tailor", name = name, name_at = place.name(t), at = caller, call_at = place.call(t),
    table_at = place.of(t), raw = record.raw(t, caller) }
  return tailor.build(parent, words.last_built)
end

return {
  kind = "document",
  says = "a recipe made from another: parent, name, and what differs",
  example = EXAMPLE,
  entries = "before, after, change, replace, drop, rename (with a name: the recipe's own fields, and set = { ... } for "
    .. "its parameters)",
  make = function(parent, name)
    local caller = place.caller(1)
    if value.is_unknown(parent) then return parent end
    local data = object.data(parent, document.class)
    if not data or data.word ~= "recipe" or type(name) ~= "string" then
      finding.error { code = "form", at = caller,
        message = ("`tailor` needs a recipe and a name, got %s and %s"):format(object.describe(parent), object.describe(name)),
        help = "write " .. EXAMPLE }
      return value.new_unknown()
    end
    return object.new(words.pending, { word = "tailor", name = name, at = caller,
      finish = function(t) return finish(data, name, caller, t) end })
  end,
}
