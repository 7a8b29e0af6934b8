--- fill: fill the joints.
local fields = require "core.fields"
local types = require "core.types"

return {
  kind = "step",
  says = "cleans and fills the joints of the area",
  example = 'fill "joints" { with = "polyurea", joint_width = "1/8 in", joint_depth = "1 in", dry = "30 min" }',
  fields = fields.join(fields.join({
    { "with", types.choice { "polyurea", "epoxy" }, says = "the filler", required = true },
    { "joint_width", types.quantity("length", { least = "1 mm", most = "4 in" }), says = "width of the joint",
      required = true, example = '"1/8 in"' },
    { "joint_depth", types.quantity("length", { least = "1 mm", most = "12 in" }), says = "depth that is filled",
      required = true, example = '"1 in"' },
    { "joint_rate", types.quantity("speed", { least = "1 ft/h", most = "2000 ft/h" }),
      says = "joint done in a time",
      default = "80 ft/h", basis = "50-150 ft/h for two people; " .. fields.PRACTICE },
    { "waste", types.quantity("fraction", { least = "0 %", most = "100 %" }), says = "filler lost on top",
      default = "10 %", basis = "5-15 %; " .. fields.PRACTICE },
  }, fields.chemical_rest()), fields.general("chemicals", 2)),
}
