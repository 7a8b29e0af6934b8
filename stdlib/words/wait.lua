--- wait: let the clock run.
local types = require "core.types"

return {
  kind = "step",
  says = "lets the clock run; nobody works on the area",
  example = 'wait "overnight" { time = "8 h" }',
  fields = {
    { "time", types.quantity("time"), says = "how long", required = true, example = '"8 h"' },
    { "says", types.text(), says = "words for the crew's sheet" },
  },
}
