--- Fixes that put a field or a step in, or take one out, for findings of rules: each function answers { text, at },
-- or nil where the text is not plain, or does not stand in this recipe but in the one it is tailored from, or in a
-- helper.
--
-- None is certain: what a rule asks for can be had in more than one way.
local edit = require "native.edit"
local finding = require "core.finding"

local mending = {}

local function change(at, text) return at and { at = at, text = text } or nil end

-- Is the step written out in the table of the recipe itself?
local function is_own(recipe, step)
  return finding.offset(recipe.table_at or 0, step.table_at or 0) ~= nil
end

local QUOTED, NUMBER = "^[\"'][^\"'\\]*[\"']$", "^[%d.]+$"

-- A quantity, a number, a flag.
local function is_plain(text)
  return text:find(QUOTED) ~= nil or text:find(NUMBER) ~= nil or text == "true" or text == "false"
end

-- A value that stands for itself, a window of such ones included; no name and no parameter.
local function is_literal(text)
  local low, high = text:match("^between%(%s*(.-)%s*,%s*(.-)%s*%)$")
  if low then return is_plain(low) and is_plain(high) end
  return is_plain(text:match("^at_least%s*(.+)$") or text:match("^at_most%s*(.+)$") or text)
    or is_plain(text:match("^at_%a+%s*%(%s*(.-)%s*%)$") or "")
end

--- The source text of a value that stands for itself, nil for another.
function mending.literal(at)
  local text = at and at ~= 0 and finding.text(at)
  return text and is_literal(text) and text or nil
end

--- A field of a step as it should be: put in, or its value replaced. mending.field(recipe, step, "hold", "true")
function mending.field(recipe, step, name, value)
  if not is_own(recipe, step) then return nil end
  local written = step.raw.fields[name]
  if not written then return change(edit.field(step.table_at, name .. " = " .. value)) end
  return mending.literal(written.at) and change(written.at, value)
end

--- A step without one of its fields.
function mending.without(recipe, step, name)
  local written = step.raw.fields[name]
  return is_own(recipe, step) and written and written.key_at ~= 0 and change(edit.without(written.key_at)) or nil
end

--- The recipe without one of its steps.
function mending.drop(recipe, step) return is_own(recipe, step) and change(edit.without(step.call_at)) or nil end

--- A new step's name that no other has: "wash before dye", "wash before dye 2".
function mending.name(recipe, wanted)
  local taken, name = {}, wanted
  for _, step in ipairs(recipe.steps) do taken[step.name] = true end
  for n = 2, #recipe.steps + 2 do
    if not taken[name] then break end
    name = ("%s %d"):format(wanted, n)
  end
  return name
end

-- `text` is a step whose name is %s.
local function step_text(recipe, text, name)
  name = mending.name(recipe, name)
  if name:find('["\\%c]') then return nil end
  return (text:gsub("%%s", function() return '"' .. name .. '"' end))
end

--- A step before another: mending.before(recipe, step, 'clean %s { with = "vacuum" }', "dust").
function mending.before(recipe, step, text, name)
  local new = is_own(recipe, step) and step_text(recipe, text, name)
  return new and change(edit.before(step.call_at, new)) or nil
end

--- A step after another.
function mending.after(recipe, step, text, name)
  local new = is_own(recipe, step) and step_text(recipe, text, name)
  return new and change(edit.after(step.call_at, new)) or nil
end

--- A step after all others.
function mending.last(recipe, text, name)
  local step = recipe.steps[#recipe.steps]
  return step and mending.after(recipe, step, text, name)
end

local TAKES_UP = { collect = true, clean = true }

--- The i-th step, or the last of those that take up what it left.
function mending.cleaned(recipe, i)
  while recipe.steps[i + 1] and TAKES_UP[recipe.steps[i + 1].word] do i = i + 1 end
  return recipe.steps[i]
end

return mending
