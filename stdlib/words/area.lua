--- area: a room or part of a floor, and what is done there.
return {
  kind = "part",
  says = "a floor of the job: its size, its recipe, its hours",
  example = 'area "lobby" { recipe = cream, length = "60 ft", width = "40 ft" }',
  fields = require("core.parts").area,
}
