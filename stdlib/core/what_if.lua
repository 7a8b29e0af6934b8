--- Values given for one run instead of what is written: `gritwork cost JOB --with "opening passes=8"`.
--
-- A name is a parameter ("opening passes", wherever a recipe has it), a field of one thing ("machine.wet vacuum.count",
-- "densify.densify.coats", "area.lobby.joints"), or a field of the job or its price book ("prices.night").
local finding = require "core.finding"
local types = require "core.types"

local what_if = {}

local given = {} -- in the order they were given

--- Gives a value, as text, to a name. The last one counts.
function what_if.set(name, text)
  for _, one in ipairs(given) do
    if one.name == name then
      one.text = text
      return
    end
  end
  given[#given + 1] = { name = name, text = text }
end

-- Of a text, what a field of this type would have been given in a script.
local function as_written(text, kind)
  if kind == types.flag then return text == "true" or (text ~= "false" and text) end
  if kind.kind then return text end
  return tonumber(text) or text
end

local function find(name)
  for _, one in ipairs(given) do
    if one.name == name then
      one.used = true
      return one
    end
  end
end

--- What was given for a parameter that stands in a field of this type, or nil.
function what_if.parameter(name, kind)
  local one = given[1] and find(name)
  return one and as_written(one.text, kind)
end

--- What was given for fields of a thing called `machine "wet vacuum"`: name -> value; nil if nothing was.
function what_if.fields(owner, fields)
  if not given[1] then return nil end
  local word, name = owner:match('^(%a+) "(.*)"$')
  if not word then return nil end
  local found
  for _, field in ipairs(fields) do
    local one = find(word .. "." .. name .. "." .. field[1])
      or ((word == "prices" or word == "job") and find(word .. "." .. field[1]))
    if one then
      found = found or {}
      found[field[1]] = as_written(one.text, field[2])
    end
  end
  return found
end

--- Reports what was given for nothing.
function what_if.refuse_unused()
  for _, one in ipairs(given) do
    if not one.used then
      finding.error { code = "what-if", at = 0, message = ("nothing here is called `%s`"):format(one.name),
        help = 'name a parameter ("opening passes"), a field of one thing ("machine.wet vacuum.count"), '
          .. 'or of the price book ("prices.night")' }
    end
  end
end

return what_if
