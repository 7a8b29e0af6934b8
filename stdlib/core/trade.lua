--- The trade library for scripts: what stands behind the modules of std/. A function takes one table of values,
-- checks it as fields are checked, and answers a result that knows where it comes from.
local finding = require "core.finding"
local inputs = require "core.trade_inputs"
local native = require "native.trade"
local object = require "core.object"
local place = require "native.place"
local quantity = require "native.quantity"
local record = require "core.record"
local result = require "core.trade_result"
local value = require "core.value"

local trade = {}

-- ---- refusals of the core

local function is_named(argument, input)
  local plain = argument:match("([^.]*)$")
  return argument == input.core or plain == input.core or plain == input.name
    or plain:sub(1, #input.name + 1) == input.name .. "_"
end

--- Does the core's name of an argument mean this input (or this column of it)?
function trade.names_input(argument, input, column)
  if not column then return is_named(argument, input) end
  return is_named(argument, column) or column.name == "" and is_named(argument, input)
end

-- The input, the row and the column that a refusal speaks of.
local function input_at_fault(list, arguments, refusal)
  for i, input in ipairs(list) do
    for c, column in ipairs(input.columns or {}) do
      if trade.names_input(refusal.argument, input, column) then
        for r, row in ipairs(arguments[i] or {}) do if row[c] == refusal.value then return input, r, column end end
        return input
      end
    end
    if trade.names_input(refusal.argument, input) then return input end
  end
  return nil
end

local function with_unit(text, unit)
  return unit and unit ~= "" and text .. " " .. unit or text
end

--- "-40 to 50 C" from the core's "air_c is 60, must be -40 to 50"; nil where it is put otherwise.
function trade.bounds(message, unit)
  local bounds = message:match(" must be ([%a ]*[%-%d][%d.e+%- to]*)$")
  return bounds and with_unit(bounds, unit)
end

local function written_item(list, row)
  return object.is_plain(list) and list[row] or nil
end

-- What was given, as it was written where it is one value.
local function got(values, input, column, refusal)
  local v = not column and values[input.name]
  if quantity.is(v) or type(v) == "number" then return tostring(v) end
  return with_unit(("%.6g"):format(refusal.value), (column or input).unit)
end

local function refuse(definition, given, values, at, arguments, refusal)
  local input, row, column = input_at_fault(definition.inputs, arguments, refusal)
  local where, label = at, definition.name
  if input then
    local field = given.fields[input.name]
    where = field and field.at ~= 0 and field.at or at
    local list = field and field.value
    if row and written_item(list, row) ~= nil then
      local item = place.of(list, row)
      local cell = type(list[row]) == "table" and place.of(list[row], column.name) or 0
      where = cell ~= 0 and cell or item ~= 0 and item or where
    end
    label = ("`%s` of %s"):format(column and column.name ~= "" and column.name or input.name, definition.name)
  end
  local fault = column or input
  local bounds = refusal.is_range and fault and trade.bounds(refusal.message, fault.unit)
  local message = bounds and ("%s must be %s, got %s"):format(label, bounds,
    got(values, input, column, refusal)) or ("%s: %s"):format(label, refusal.message)
  finding.error { code = refusal.is_range and "range" or "trade", at = where, message = message,
    basis = definition.basis }
end

-- ---- modules

--- Calls a function with a raw record of what was given. Answers a result, or the unknown.
function trade.call(definition, raw, at)
  local read = record.read(raw, definition.fields, { owner = definition.name, at = at })
  local arguments = not read.faults and inputs.arguments(definition.inputs, read.values)
  if not arguments then return value.new_unknown() end
  local answers, basis = native.call(definition.name, arguments)
  if answers then return result.new(definition, read.values, answers, basis) end
  refuse(definition, raw, read.values, at, arguments, basis)
  return value.new_unknown()
end

local function callable(definition)
  return function(given, ...)
    if value.is_unknown(given) then return given end
    local caller = place.caller(1)
    local more = select("#", ...)
    if not object.is_plain(given) or more > 0 then
      finding.error { code = "form", at = caller, message = ("%s takes one table, got %s"):format(definition.name,
          more > 0 and more + 1 .. " values" or object.describe(given)),
        help = "write " .. inputs.example(definition) }
      return value.new_unknown()
    end
    local word = place.word(given)
    local at = word ~= 0 and word or caller
    return trade.call(definition, record.raw(given, at), at)
  end
end

local modules = {}

--- The functions of a module, with their fields: { { name, says, formula, basis, inputs, outputs, fields }, ... }.
function trade.functions(name)
  if not modules[name] then
    modules[name] = native.functions(name)
    for _, definition in ipairs(modules[name]) do definition.fields = inputs.fields(definition.inputs) end
  end
  return modules[name]
end

--- What `require "std.NAME"` answers: the functions of that part of the trade library.
function trade.module(name, says)
  local functions, names = {}, {}
  for i, definition in ipairs(trade.functions(name)) do
    names[i] = definition.name:match("%.(.*)$")
    functions[names[i]] = callable(definition)
  end
  return setmetatable(functions, { says = says, __index = function(_, key)
    finding.error { code = "name", at = place.caller(1),
      message = ("std.%s has no `%s`"):format(name, tostring(key)),
      help = finding.did_you_mean(tostring(key), names) or "it has " .. finding.choices(names) }
    return value.new_unknown()
  end })
end

--- What a module is for.
function trade.says(module) return getmetatable(module).says end

return trade
