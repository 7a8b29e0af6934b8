--- Results of the trade library: frozen, and able to say where they come from.
local finding = require "core.finding"
local object = require "core.object"
local plot = require "core.plot"
local place = require "native.place"
local quantity = require "native.quantity"
local value = require "core.value"

local result = {}

local given_class = object.class("inputs of a result", {
  read = function(data, key) return data.values[key] end,
})

local function with_unit(text, unit)
  return unit and unit ~= "" and text .. " " .. unit or text
end

local NO_UNIT = { number = true, whole = true, flag = true, text = true, texts = true }

--- A figure of a result in words: "45.87 F", "24.94 kVA", "row followed".
function result.shown(data, output)
  local v = data.outputs[output.name]
  local function one(x)
    if type(x) == "number" then return with_unit(("%.6g"):format(x), output.unit) end
    if not quantity.is(x) then return tostring(x) end
    if data.system and not output.keeps_unit or output.unit == "" then return x:show(data.system == "metric", 4) end
    return with_unit(("%.4g"):format(x:to(output.unit)), output.unit)
  end
  if type(v) ~= "table" then return v == nil and "none" or one(v) end
  local list = {}
  for i, x in ipairs(v) do list[i] = one(x) end
  return #list > 0 and table.concat(list, ", ") or "none"
end

local function sentence(data)
  return ("%s (%s; %s)"):format(result.shown(data, data.definition.outputs[1]), data.name, data.basis)
end

local OWN = { formula = true, basis = true, inputs = true, unit = true }

--- The picture of the first figure of a result that is a series of numbers; nil if there is none.
function result.plot(data)
  for _, output in ipairs(data.definition.outputs) do
    local series = output.is_list and plot.columns(data.outputs[output.name])
    if series then return series end
  end
  return nil
end

--- A result is read as `.value`, by the names of its figures, and as `.formula`, `.basis`, `.inputs`, `.unit`;
-- `.plot` is a picture in text where a figure is a series (nil elsewhere).
result.class = object.class("result", {
  read = function(data, key)
    if key == "value" then return data.outputs[data.first] end
    local own = data.outputs[key]
    if own ~= nil then return own end
    if OWN[key] then return data[key] end
    if key == "plot" then return result.plot(data) end
    if data.known[key] then return nil end
    finding.error { code = "name", at = place.caller(1),
      message = ("a result of %s has no `%s`"):format(data.name, tostring(key)),
      help = finding.did_you_mean(tostring(key), data.names) or "it has " .. finding.choices(data.names) }
    return value.new_unknown()
  end,
  frozen = "make a local of your own from its values",
  events = { __tostring = function(o) return sentence(object.data(o)) end },
})

-- The system of units that the script writes in: that of the first value which tells.
local function system_of(values, inputs)
  for _, input in ipairs(inputs) do
    local v = values[input.name]
    local system = quantity.is(v) and v:system() or nil
    if system then return system end
  end
  return nil
end

local function currency_of(v)
  if quantity.is(v) then return v:currency() end
  if type(v) ~= "table" or object.data(v) then return nil end
  for _, inner in pairs(v.values or v) do
    local currency = currency_of(inner)
    if currency then return currency end
  end
  return nil
end

local function quantity_of(output, x, system, currency)
  if x == nil or NO_UNIT[output.kind] then return x end
  if output.kind == "money" then return quantity.of(x, "money", currency or "USD") end
  local told = not output.keeps_unit and (system == "us" and output.us or system) or nil
  return quantity.of(x, output.kind, output.unit, told)
end

local function value_of(output, answer, system, currency)
  if not output.is_list then return quantity_of(output, answer, system, currency) end
  local list = {}
  for i, x in ipairs(answer) do list[i] = quantity_of(output, x, system, currency) end
  return list
end

--- The result of a call: its answers by position, and their basis where it is not the formula's.
function result.new(definition, values, answers, basis)
  local system, currency = system_of(values, definition.inputs), currency_of(values)
  local outputs, known, names = {}, {}, { "value" }
  for i, output in ipairs(definition.outputs) do
    outputs[output.name], known[output.name] = value_of(output, answers[i], system, currency), true
    names[#names + 1] = output.name
  end
  for _, name in ipairs { "formula", "basis", "inputs", "unit" } do names[#names + 1] = name end
  local first = definition.outputs[1]
  return object.new(result.class, {
    name = definition.name, definition = definition, first = first.name, outputs = outputs, known = known,
    names = names, system = system,
    formula = definition.formula, basis = basis or definition.basis, unit = first.unit,
    inputs = object.new(given_class, { values = values }),
  })
end

return result
