--- The manual of the trade library: what a function reckons, takes and gives, where its numbers come from, and an
-- example with its answer. Ranges are those that the core states when it refuses; examples are run.
local inputs = require "core.trade_inputs"
local native = require "native.trade"
local object = require "core.object"
local page = require "core.page"
local record = require "core.record"
local result = require "core.trade_result"
local stdlib = require "native.stdlib"
local trade = require "core.trade"

local trade_manual = {}

--- The modules: { { name, says }, ... }, sorted.
function trade_manual.modules()
  local list = {}
  for i, name in ipairs(stdlib.names("std")) do
    list[i] = { name = name, says = trade.says(require("std." .. name)) }
  end
  return list
end

--- The names of modules and functions that an entry can be asked for.
function trade_manual.names()
  local names = {}
  for _, module in ipairs(trade_manual.modules()) do
    names[#names + 1] = module.name
    for _, definition in ipairs(trade.functions(module.name)) do names[#names + 1] = definition.name end
  end
  return names
end

-- ---- ranges

local FAR = 1e300

-- What the core says when one argument is put far away; nil where it minds something else.
local function refusal_at(definition, arguments, input, i, column, c, x)
  local tried = {}
  for n = 1, #definition.inputs do tried[n] = arguments[n] end
  if column then
    local first = {}
    for n = 1, #input.columns do first[n] = arguments[i][1][n] end
    first[c] = x
    tried[i] = { first, table.unpack(arguments[i], 2) }
  else
    tried[i] = x
  end
  local answers, refusal = native.call(definition.name, tried)
  if answers or not refusal.is_range then return nil end
  return trade.names_input(refusal.argument, input, column) and trade.bounds(refusal.message) or nil
end

-- "above 0" and "0 to 1000" are said as one.
local function joined(low, high)
  if not (low and high) or low == high then return low or high end
  local most = high:match(" to (%S+)$") or high:match("^at most (%S+)$")
  return most and low .. " to " .. most or low
end

local function range_of(definition, arguments, input, i, column, c)
  local kind = (column or input).kind
  local counted = kind ~= "flag" and kind ~= "grit" and kind ~= "text" and not (column or input).words
  if not counted or (not column and input.columns) then return nil end
  local low = refusal_at(definition, arguments, input, i, column, c, -FAR)
  local high = refusal_at(definition, arguments, input, i, column, c, FAR)
  local bounds, unit = joined(low, high), (column or input).unit
  return bounds and unit and unit ~= "" and bounds .. " " .. unit or bounds
end

-- Notes the ranges in the types of the fields, where the manual finds them.
local function note_ranges(definition)
  if definition.has_ranges then return end
  definition.has_ranges = true
  local arguments = inputs.example_arguments(definition)
  for i, input in ipairs(definition.inputs) do
    local kind = definition.fields[i][2]
    kind.bounds = range_of(definition, arguments, input, i)
    for c, column in ipairs(input.columns or {}) do
      local inner = kind.list.fields and kind.list.fields[c][2] or kind.list
      inner.bounds = arguments[i] and range_of(definition, arguments, input, i, column, c)
    end
  end
end

-- ---- entries

local function example_lines(definition)
  local raw = record.raw(inputs.example_values(definition), 0)
  local answer = trade.call(definition, raw, 0)
  return inputs.example(definition), "-> " .. tostring(answer), object.data(answer)
end

local function output_text(output)
  local text = output.kind
  if output.kind == "whole" then text = "whole number" end
  if output.kind == "flag" then text = "true or false" end
  if output.kind == "texts" then text = "list of texts" end
  if output.unit and output.unit ~= "" and output.kind == "number" then text = text .. ", " .. output.unit end
  return output.is_list and "list: " .. text or text
end

-- Of each output its name, and what it is in the example.
local function given_texts(definition, data)
  local list = {}
  for i, output in ipairs(definition.outputs) do
    local also = i == 1 and ", also `value`" or ""
    list[i] = { output.name, ("%s%s; in the example %s"):format(output_text(output), also,
      result.shown(data, output)) }
  end
  return list
end

local function list_fields(fields)
  local shown = {}
  for i, field in ipairs(fields) do
    local kind = field[2]
    local inner = kind.list and kind.list.fields
    local as_record = inner and setmetatable({ fields = inner, list = false }, { __index = kind })
    shown[i] = inner and setmetatable({ field[1], as_record }, { __index = field }) or field
  end
  return shown
end

local function function_entry(definition)
  note_ranges(definition)
  local out = { definition.name, "\n  ", page.fold(definition.says, 80, 2), "\n\n" }
  if definition.reckoned then
    out[#out + 1] = "Formula (" .. definition.formula .. ")\n  " .. page.fold(definition.reckoned, 80, 4) .. "\n\n"
  end
  local basis = definition.basis or "in the table's row, told with each answer"
  out[#out + 1] = "Basis\n  " .. page.fold(basis, 80, 2) .. "\n\n"
  out[#out + 1] = "Takes\n"
  page.field_lines(list_fields(definition.fields), out, 0)
  local example, answer, data = example_lines(definition)
  out[#out + 1] = "\nGives\n"
  for _, given in ipairs(given_texts(definition, data)) do out[#out + 1] = page.row(given[1], given[2], 18) end
  out[#out + 1] = "\nExample\n  " .. page.fold(example, 80, 4) .. "\n  " .. page.fold(answer, 80, 4) .. "\n"
  local picture = result.plot(data)
  if picture then out[#out + 1] = "\nIts series (`.plot`)\n" .. picture .. "\n" end
  return table.concat(out)
end

local function module_entry(name)
  local out = { "std.", name, "\n  ", page.fold(trade.says(require("std." .. name)), 80, 2), "\n\n",
    ('  local %s = require "std.%s"\n\nFunctions\n'):format(name, name) }
  for _, definition in ipairs(trade.functions(name)) do
    out[#out + 1] = page.row(definition.name:match("%.(.*)$"), definition.says, 24)
  end
  return table.concat(out)
end

--- The entry of a module ("climate", "std.climate") or function ("climate.dew_point"); nil if there is none.
function trade_manual.entry(name)
  name = name:match("^std%.(.*)$") or name
  local module = name:match("^[^.]*")
  for _, other in ipairs(stdlib.names("std")) do
    if other == name then return module_entry(name) end
    if other == module then
      for _, definition in ipairs(trade.functions(module)) do
        if definition.name == name then return function_entry(definition) end
      end
    end
  end
  return nil
end

-- ---- the reference manual

local function manual_function(definition, out)
  note_ranges(definition)
  local example, answer, data = example_lines(definition)
  out[#out + 1] = ("#### %s\n\n%s\n\n"):format(definition.name, definition.says)
  if definition.reckoned then
    out[#out + 1] = ("    %s\n\nBasis: %s ([%s](formulas.md#%s)).\n\n"):format(definition.reckoned, definition.basis,
      definition.formula, definition.formula:gsub("%.", ""))
  end
  out[#out + 1] = ("```lua\n%s\n%s\n```\n\n| field | takes | says | if left out |\n|---|---|---|---|\n"):format(example,
    answer:gsub("^%->", "-- ->"))
  page.field_table(list_fields(definition.fields), "", out)
  out[#out + 1] = "\n| gives | what |\n|---|---|\n"
  for _, given in ipairs(given_texts(definition, data)) do
    out[#out + 1] = ("| `%s` | %s |\n"):format(given[1], page.escaped(given[2]))
  end
  out[#out + 1] = "\n"
end

--- Appends the trade library to the reference, in Markdown.
function trade_manual.manual(out)
  out[#out + 1] = "\n## The trade library\n\nFunctions over the formulas of [formulas.md](formulas.md). A module is had by "
    .. "`local climate = require \"std.climate\"`. A function takes one table and answers a result: `value`, the other "
    .. "figures by their names, `formula`, `basis`, `inputs`. Ranges are those of the core; answers are of the "
    .. "version that printed them.\n\n"
  for _, module in ipairs(trade_manual.modules()) do
    out[#out + 1] = ("### std.%s\n\n%s.\n\n"):format(module.name, module.says:gsub("^%l", string.upper))
    for _, definition in ipairs(trade.functions(module.name)) do manual_function(definition, out) end
  end
end

-- ---- definitions for Lua editors

local function meta_function(module, definition, out)
  local name = definition.name:match("%.(.*)$")
  local class = ("gritwork.given.%s"):format(definition.name)
  out[#out + 1] = ("---@class %s\n"):format(class)
  for _, field in ipairs(definition.fields) do
    out[#out + 1] = ("---@field %s%s %s # %s\n"):format(field[1], field.required and "" or "?", page.cats_type(field[2]),
      field.says)
  end
  out[#out + 1] = ("\n---@class gritwork.result.%s: gritwork.result\n"):format(definition.name)
  for _, output in ipairs(definition.outputs) do
    out[#out + 1] = ("---@field %s any # %s\n"):format(output.name, output_text(output))
  end
  out[#out + 1] = ("\n---%s\n---@param given %s\n---@return gritwork.result.%s\nfunction %s.%s(given) end\n\n"):format(
    definition.says, class, definition.name, module, name)
end

--- Appends the trade library to the definition file.
function trade_manual.meta(out)
  out[#out + 1] = "---@class gritwork.result\n---@field value any\n---@field formula string\n---@field basis string\n"
    .. "---@field inputs table\n\n"
  for _, module in ipairs(trade_manual.modules()) do
    out[#out + 1] = ("---%s\n---@class gritwork.std.%s\nlocal %s = {}\n\n"):format(module.says, module.name, module.name)
    for _, definition in ipairs(trade.functions(module.name)) do meta_function(module.name, definition, out) end
  end
end

return trade_manual
