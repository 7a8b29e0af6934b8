--- crew: people of one class.
return {
  kind = "part",
  says = "people of one class: how many, what they can do, when they work",
  example = 'crew "operator" { count = 2, skills = { "machine" }, shift = "night" }',
  fields = require("core.parts").crew,
}
