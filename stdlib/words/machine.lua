--- machine: machines of one class.
return {
  kind = "part",
  says = "machines of one class: how many, what they do, how wide and how fast",
  example = 'machine "planetary 32 in" { does = { "grind", "hone", "polish" }, width = "32 in", wet = true }',
  fields = require("core.parts").machine,
}
