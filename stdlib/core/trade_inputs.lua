--- What the functions of the trade library take: from the rows of native.trade to fields, from values to what the
-- core takes, and the examples of the manual.
local object = require "core.object"
local quantity = require "native.quantity"
local record = require "core.record"
local types = require "core.types"

local inputs = {}

-- ---- types of what is given

--- A grit as it is printed: 400 on a floor pad, or "P400", "#400", "D126".
local grit = { says = "a grit", examples = { "400", '"P400"' } }
function grit.read(v, slot)
  if type(v) == "number" and v == v and v - v == 0 then return ("%.14g"):format(v) end
  return types.text("a grit").read(v, slot)
end

--- The fields of a list of inputs.
function inputs.fields(columns)
  local fields = {}
  for i, input in ipairs(columns) do fields[i] = inputs.field(input) end
  return fields
end

-- One row of a list: its cells by name, or in the order of the columns; a lone value is the first cell.
local function row_type(columns)
  local fields = inputs.fields(columns)
  local self = { says = "a row", examples = { "{ ... }" }, fields = fields }
  function self.read(v, slot)
    local is_row = object.is_plain(v)
    local lone = { fields = {}, items = { { value = v, at = slot.at } }, at = slot.at }
    local raw = is_row and record.raw(v, slot.at) or lone
    for i, item in ipairs(raw.items) do
      local column = columns[i]
      if column and not raw.fields[column.name] then
        raw.fields[column.name] = { value = item.value, at = item.at, key_at = item.at }
      end
    end
    return record.read(raw, fields, { owner = ("a row of `%s`"):format(slot.field), metric = slot.metric,
      at = slot.at })
  end
  return self
end

local function list_type(input)
  local columns = input.columns
  if columns[1].name == "" then
    local of = inputs.field(columns[1])[2]
    return types.list(of, "a list, each " .. of.says)
  end
  local names = {}
  for i, column in ipairs(columns) do names[i] = column.name end
  return types.list(row_type(columns), "a list of rows { " .. table.concat(names, ", ") .. " }")
end

local PLAIN = { number = types.number, whole = types.whole, flag = function() return types.flag end,
  grit = function() return grit end, text = function() return types.text() end }

local function type_of(input)
  if input.columns then return list_type(input) end
  if input.words then return types.choice(input.words) end
  if PLAIN[input.kind] then return PLAIN[input.kind]() end
  return types.quantity(input.kind, {}) -- the formula has limits of its own
end

local function split(text, at)
  local parts = {}
  for part in (text .. at):gmatch("(.-)" .. at) do parts[#parts + 1] = part:match("^%s*(.-)%s*$") end
  return parts
end

--- What stands in the tables as text, as a script would write it.
function inputs.written(input, text)
  if input.columns then
    local rows = {}
    for r, row in ipairs(split(text, ";")) do
      if input.columns[1].name == "" then
        rows[r] = inputs.written(input.columns[1], row)
      else
        rows[r] = {}
        for c, cell in ipairs(split(row, ",")) do
          local column = input.columns[c]
          rows[r][column.name] = inputs.written(column, cell)
        end
      end
    end
    return rows
  end
  if input.kind == "number" or input.kind == "whole" then return tonumber(text) end
  if input.kind == "grit" then return tonumber(text) or text end
  if input.kind == "flag" then return text == "true" end
  return text
end

local function spelled(v)
  if type(v) == "string" then return v:find('"') and "[[" .. v .. "]]" or '"' .. v .. '"' end
  return tostring(v)
end

local function spelled_rows(input, rows)
  local out = {}
  for r, row in ipairs(rows) do
    if input.columns[1].name == "" then
      out[r] = spelled(row)
    else
      local cells = {}
      for _, column in ipairs(input.columns) do
        if row[column.name] ~= nil then cells[#cells + 1] = column.name .. " = " .. spelled(row[column.name]) end
      end
      out[r] = "{ " .. table.concat(cells, ", ") .. " }"
    end
  end
  return "{ " .. table.concat(out, ", ") .. " }"
end

-- A value of the tables as a script spells it.
local function spelled_input(input, text)
  local v = inputs.written(input, text)
  return input.columns and spelled_rows(input, v) or spelled(v)
end

--- The field that an input is: what core.record reads, and the manual prints.
function inputs.field(input)
  if input.kind:find("|", 1, true) then input.words = split(input.kind, "|") end
  return {
    input.name, type_of(input), says = input.says, required = not (input.otherwise or input.may_lack),
    default = input.otherwise and inputs.written(input, input.otherwise), basis = input.basis,
    example = input.example and spelled_input(input, input.example),
  }
end

-- ---- from what was given to what the core takes

local number_of -- of an input's value, in the unit that the core takes

local function position(words, word)
  for i, other in ipairs(words) do if other == word then return i - 1 end end
  return nil
end

local function cells_of(columns, row)
  if columns[1].name == "" then return { number_of(columns[1], row) } end
  local cells = {}
  for c, column in ipairs(columns) do
    local v = row.values[column.name]
    if v == nil and not column.may_lack then return nil end
    cells[c] = number_of(column, v)
  end
  return cells
end

local function rows_of(input, list)
  local rows = {}
  for r, row in ipairs(list) do
    rows[r] = cells_of(input.columns, row)
    if not rows[r] then return nil end
  end
  return rows
end

function number_of(input, v)
  if v == nil then return nil end
  if input.columns then return rows_of(input, v) end
  if input.words then return position(input.words, v) end
  if quantity.is(v) then return quantity.amount(v, input.kind, input.unit) end
  return v
end

--- What the core takes, by position; nil where something is missing that has its finding already.
function inputs.arguments(list, values)
  local arguments = {}
  for i, input in ipairs(list) do
    local v = values[input.name]
    local argument = number_of(input, v)
    if argument == nil and not (v == nil and input.may_lack) then return nil end
    arguments[i] = argument
  end
  return arguments
end

-- ---- examples

local function in_example(input) return input.example and not input.otherwise end

--- What the example of a function gives: { name -> value }. Inputs with a default are left to it.
function inputs.example_values(definition)
  local given = {}
  for _, input in ipairs(definition.inputs) do
    if in_example(input) then given[input.name] = inputs.written(input, input.example) end
  end
  return given
end

--- What the core takes in the example.
function inputs.example_arguments(definition)
  local read = record.read(record.raw(inputs.example_values(definition), 0), definition.fields,
    { owner = definition.name, at = 0 })
  return assert(inputs.arguments(definition.inputs, read.values), definition.name)
end

--- The example as a script writes it: climate.dew_point { air = "68 F", humidity = "45 %" }.
function inputs.example(definition)
  local parts = {}
  for _, input in ipairs(definition.inputs) do
    if in_example(input) then
      parts[#parts + 1] = ("%s = %s"):format(input.name, spelled_input(input, input.example))
    end
  end
  return ("%s { %s }"):format(definition.name, table.concat(parts, ", "))
end

return inputs
