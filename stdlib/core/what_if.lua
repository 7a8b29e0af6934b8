--- Values given for one run instead of what is written: `gritwork cost JOB --with "opening passes=8"`.
--
-- A name is a parameter ("opening passes", wherever a recipe has it) or a path to a field: of one thing by its word
-- and name ("machine.wet vacuum.count", "densify.densify.coats"), of the job or its price book ("prices.night"),
-- and on into tables ("site.hours", "prices.tools.resin 400.life", "prices.materials.polyurea.1.price").
local finding = require "core.finding"
local object = require "core.object"

local what_if = {}

local given = {} -- in the order they were given
local known = {} -- names that something had, to suggest

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
  if kind.says == "true or false" then return text == "true" or (text ~= "false" and text) end
  if kind.kind then return text end
  return tonumber(text) or text
end

local function find(name)
  known[name] = true
  for _, one in ipairs(given) do
    if one.name == name then
      one.used = true
      return one
    end
  end
end

-- Is a name given that goes on below this one?
local function reaches_below(name)
  for _, one in ipairs(given) do
    if one.name:sub(1, #name + 1) == name .. "." then return true end
  end
  return false
end

--- What was given for a parameter that stands in a field of this type, or nil.
function what_if.parameter(name, kind)
  local one = given[1] and find(name)
  return one and as_written(one.text, kind)
end

--- The paths of a thing called `machine "wet vacuum"`; of the job and its price book the name may be left out, and
-- the tables of a job are reached by their own names. nil for all else, and where nothing was given.
function what_if.paths_of(owner)
  if not given[1] then return nil end
  local word, name = owner:match('^(%a+) "(.*)"$')
  if not word then return nil end
  local paths = { word .. "." .. name }
  if word == "prices" or word == "job" then paths[2] = word end
  if word == "job" then paths[3] = "" end
  return paths
end

local function below(path, name) return path == "" and name or path .. "." .. name end

local function said(one) return one.name .. "=" .. one.text end

--- What was given at one of these paths, and how; else the value itself.
function what_if.instead(v, kind, paths)
  for _, path in ipairs(paths or {}) do
    local one = find(path)
    if one then return as_written(one.text, kind), said(one) end
  end
  return v
end

local function is_table_of_fields(v) return type(v) == "table" and object.data(v) == nil end

-- What a field has for this run, { value, given }, or nil: what was given for it, or a table to hold what was given
-- for its own fields.
local function of_field(paths, field, written)
  local name, kind = field[1], field[2]
  for _, path in ipairs(paths) do
    local one = path ~= "" and find(below(path, name))
    if one then return { value = as_written(one.text, kind), given = said(one) } end
  end
  for _, path in ipairs(kind.fields and not is_table_of_fields(written) and paths or {}) do
    for _, inner in ipairs(kind.fields) do known[below(below(path, name), inner[1])] = true end
    if reaches_below(below(path, name)) then return { value = {} } end
  end
  return nil
end

--- What was given for the fields of a record at these paths: name -> { value, given }; nil if nothing was.
function what_if.fields(paths, fields, raw)
  if not paths then return nil end
  local found
  for _, field in ipairs(fields) do
    local written = raw.fields[field[1]]
    local v = of_field(paths, field, written and written.value)
    if v ~= nil then
      found = found or {}
      found[field[1]] = v
    end
  end
  return found
end

local HELP = 'name a parameter ("opening passes"), a field of one thing ("machine.wet vacuum.count"), '
  .. 'or of the price book ("prices.night")'

local function split(name)
  local path, last = name:match("^(.*)%.([^.]*)$")
  return path or "", last or name
end

-- Known names that agree with one in all but their last part, or in that alone.
local function alike(name)
  local path, last = split(name)
  local names = {}
  for other in next, known do
    local other_path, other_last = split(other)
    if other_path == path or other_last == last then names[#names + 1] = other end
  end
  table.sort(names)
  return names
end

--- Reports what was given for nothing.
function what_if.refuse_unused()
  for _, one in ipairs(given) do
    if not one.used then
      finding.error { code = "what-if", at = 0, message = ("nothing here is called `%s`"):format(one.name),
        help = finding.did_you_mean(one.name, alike(one.name)) or HELP }
    end
  end
end

return what_if
