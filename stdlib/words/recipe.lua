--- recipe: a shop's method, step by step.
local recipe = require "core.recipe"

return {
  kind = "document",
  says = "a method: what it promises, the slabs it suits, and its steps in order",
  example = 'recipe "cream, wet" { finish = { exposure = "cream" }, hone "100" { grit = 100, bond = "resin" } }',
  fields = recipe.fields,
  entries = "steps",
  build = recipe.from_script,
}
