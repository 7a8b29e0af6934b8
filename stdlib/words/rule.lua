--- rule: a rule of the shop.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local record = require "core.record"
local types = require "core.types"
local value = require "core.value"

local fields = {
  { "level", types.choice { "error", "warning" }, says = "how bad it is to break it", default = "warning",
    basis = "a warning unless the rule says error" },
  { "scope", types.choice { "step", "recipe", "job" }, says = "what it looks at", required = true, example = '"step"' },
  { "says", types.text(), says = "what a sound document keeps to", required = true },
  { "basis", types.text(), says = "where that comes from", required = true, example = '"house rule since 2026"' },
  { "check", types.call, says = "function(subject, report): calls report { message = ... } for what breaks it",
    required = true, example = "function(step, report) ... end" },
}

local function build(from)
  local data = { word = "rule", name = from.name, at = from.at, name_at = from.name_at, raw = from.raw }
  data.record = record.read(from.raw, fields, { owner = document.label(data), at = from.name_at })
  if not from.name:find("^%l[%l%d-]*$") then
    finding.error { code = "name", at = from.name_at, message = ("`%s` is not a rule's id"):format(from.name),
      help = 'small letters, digits and hyphens: rule "two-coats" { ... }' }
  end
  local values = data.record.values
  if not values.check or not values.scope then return value.new_unknown() end
  data.rule = { id = from.name, level = values.level, scope = values.scope, says = values.says, basis = values.basis,
    check = require("core.shop_rule")(values.check, from) }
  return object.new(document.class, data)
end

return {
  kind = "document",
  says = "a rule of the shop, for `rules = { ... }` of a recipe or job",
  example = 'rule "two-coats" { scope = "step", says = "...", basis = "house rule", check = function(step, report) ... end }',
  fields = fields,
  build = build,
}
