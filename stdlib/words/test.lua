--- test: what validation must find in a document.
local document = require "core.document"
local object = require "core.object"
local record = require "core.record"
local types = require "core.types"

local fields = {
  { "of", types.either_document, says = "the recipe or job, or a function that returns it", required = true,
    example = 'require "methods.cream_wet"' },
  { "finds", types.list(types.text("a rule's id or a finding's code")),
    says = "codes that must be found, and no others", required = true, example = '{ "grit-step" }' },
}

local function build(from)
  local data = { word = "test", name = from.name, at = from.at, name_at = from.name_at, raw = from.raw }
  data.record = record.read(from.raw, fields, { owner = document.label(data), at = from.name_at })
  return object.new(document.class, data)
end

return {
  kind = "document",
  says = "a test of the shop's own recipes and rules, run by `gritwork test`",
  example = 'test "no skipped grit" { of = require "methods.house", finds = {} }',
  fields = fields,
  build = build,
}
