--- Values that are more than a number: windows, estimates, parameters, and the stand-in for what failed.
local finding = require "core.finding"
local object = require "core.object"
local place = require "native.place"
local quantity = require "native.quantity"

local value = {}

--- A window that is allowed: { low, high, table-free raw ends }. Ends are read where the field's kind is known.
value.window = object.class("window")

--- An uncertain estimate: low, likely, high.
value.estimate = object.class("estimate")

--- A parameter of a recipe: name, default, allowed (a window), at.
value.parameter = object.class("parameter")

local parameters = {}

--- A parameter that is to be used in a field; see value.report_unused.
function value.new_parameter(data)
  parameters[#parameters + 1] = data
  return object.new(value.parameter, data)
end

--- Warns of parameters that no field of any step uses.
function value.report_unused()
  for _, data in ipairs(parameters) do
    if not data.used then
      finding.warning { code = "parameter-unused", at = data.at, message = ("no field uses the parameter `%s`"):format(data.name),
        help = "put it where its value belongs, or take it out" }
    end
  end
end

--- A window or estimate of a word, or a finding and a stand-in where one of its `ends` is missing.
function value.new_of(class, word, example, ends)
  for i = 1, ends.n do
    if ends[i] == nil then
      finding.error { code = "form", at = place.caller(1), message = ("`%s` needs %s"):format(word,
        ends.n == 1 and "a value" or ends.n == 2 and "two values" or "three values"), help = "write for instance " .. example }
      return value.new_unknown()
    end
  end
  return object.new(class, { word = word, low = ends.low, likely = ends.likely, high = ends.high })
end

--- Stands for something that already has a finding: it swallows everything, so that one cause gives one finding.
local function swallow(a, b)
  local data = object.data(a, value.unknown) or object.data(b, value.unknown)
  return data.self
end

value.unknown = object.class("unknown", {
  events = { __add = swallow, __sub = swallow, __mul = swallow, __div = swallow, __unm = swallow, __concat = swallow,
    __mod = swallow, __pow = swallow, __idiv = swallow },
  read = function(data) return data.self end,
  call = function(data) return data.self end,
})

function value.new_unknown()
  local data = {}
  data.self = object.new(value.unknown, data)
  return data.self
end

-- Arithmetic that makes no sense (3 in + 2 h) has its finding at the operator, and the script goes on without it.
quantity.when_refused(function(message, help)
  finding.error { code = "unit", at = place.caller(1), message = message, help = help ~= "" and help or nil }
  return value.new_unknown()
end)

function value.is_unknown(v) return object.data(v, value.unknown) ~= nil end

return value
