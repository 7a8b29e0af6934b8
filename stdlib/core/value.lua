--- Values that are more than a number: windows, estimates, parameters, and the stand-in for what failed.
local object = require "core.object"

local value = {}

--- A window that is allowed: { low, high, table-free raw ends }. Ends are read where the field's kind is known.
value.window = object.class("window")

--- An uncertain estimate: low, likely, high.
value.estimate = object.class("estimate")

--- A parameter of a recipe: name, default, allowed (a window), at.
value.parameter = object.class("parameter")

--- Stands for something that already has a finding: it swallows everything, so that one cause gives one finding.
value.unknown = object.class("unknown", {
  read = function(data) return data.self end,
  call = function(data) return data.self end,
})

function value.new_unknown()
  local data = {}
  data.self = object.new(value.unknown, data)
  return data.self
end

function value.is_unknown(v) return object.data(v, value.unknown) ~= nil end

return value
