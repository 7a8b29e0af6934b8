--- rule: a rule of the shop, or what the shop makes of a built-in one.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local record = require "core.record"
local types = require "core.types"
local value = require "core.value"

local BASIS = { "basis", types.text(), says = "where that comes from", required = true,
  example = '"house rule since 2026"' }

local fields = {
  { "level", types.choice { "error", "warning", "note" }, says = "how bad it is to break it", default = "warning",
    basis = "a warning unless the rule says error" },
  { "scope", types.choice { "step", "recipe", "job" }, says = "what it looks at", required = true,
    example = '"step"' },
  { "says", types.text(), says = "what a sound document keeps to", required = true },
  BASIS,
  { "help", types.text(), says = "what to do about it", example = '"lay a second coat"' },
  { "check", types.call, says = "function(subject, report): calls report { message = ... } for what breaks it; a "
    .. "built-in rule keeps its own without one", required = true, example = "function(step, report) ... end" },
}

-- What may be said of a built-in rule whose check is kept.
local changes = {
  { "level", types.choice { "error", "warning", "note" }, says = "how bad it is to break it", required = true,
    example = '"error"' },
  BASIS,
}

local function refuse(from, message, help)
  finding.error { code = "rule", at = from.name_at, message = ("`%s` %s"):format(from.name, message), help = help }
  return value.new_unknown()
end

-- The built-in rule at the shop's level.
local function changed(built_in, values)
  local rule = setmetatable({}, { __index = built_in })
  rule.only_level, rule.basis = values.level, values.basis .. "; " .. built_in.basis
  return rule
end

local function made(from, values)
  return { id = from.name, level = values.level, scope = values.scope, says = values.says, basis = values.basis,
    help = values.help, check = require("core.shop_rule")(values.check, from) }
end

local function build(from)
  local built_in = require("core.rules").find(from.name)
  local is_change = built_in ~= nil and from.raw.fields.check == nil
  local data = { word = "rule", name = from.name, at = from.at, name_at = from.name_at, raw = from.raw }
  data.record = record.read(from.raw, is_change and changes or fields, { owner = document.label(data),
    at = from.name_at })
  if not from.name:find("^%l[%l%d-]*$") then
    finding.error { code = "name", at = from.name_at, message = ("`%s` is not a rule's id"):format(from.name),
      help = 'small letters, digits and hyphens: rule "two-coats" { ... }' }
  end
  local values = data.record.values
  if built_in and built_in.law and (not is_change or values.level == "note") then
    return refuse(from, "states what a regulation asks for: it can be made an error or waived, and is told all the "
      .. "same", 'write level = "error", or a rule under another name')
  end
  if is_change and data.record.faults or not is_change and (not values.check or not values.scope) then
    return value.new_unknown()
  end
  data.rule = is_change and changed(built_in, values) or made(from, values)
  return object.new(document.class, data)
end

return {
  kind = "document",
  says = "a rule of the shop, for `rules = { ... }` of a recipe or job; with the id of a built-in rule it takes its "
    .. "place, or gives it another level",
  example = 'rule "two-coats" { scope = "step", says = "...", basis = "house rule", '
    .. 'check = function(step, report) ... end }',
  fields = fields,
  build = build,
}
