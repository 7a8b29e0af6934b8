--- note: words for the crew's sheet.
local types = require "core.types"

return {
  kind = "step",
  says = "puts words on the crew's sheet at this place",
  example = 'note "doors" { says = "keep the loading door shut while the densifier dwells" }',
  fields = {
    { "says", types.text(), says = "the words", required = true },
  },
}
