--- Nothing is guessed silently: a default that changes what the shipped jobs plan or cost is listed as an
-- assumption.
--
--   lua5.4 tests/assumptions.lua BUILD
--
-- Each default of the language is changed in a copy of the standard library, one at a time. Where a job's schedule
-- or cost comes out otherwise, `cost --json` must name that field among its assumptions.
package.path = "tests/?.lua;stdlib/?.lua"
local json = require "json"

local build = arg[1]
local root = build .. "/assumptions"
local passed, failed = 0, 0

-- ---- the defaults, from the field tables themselves

-- Reading the tables calls nothing of the program but what makes limits and examples; texts will do for both.
table.insert(package.searchers, 2, function(name)
  local function same(text) return text end
  return name:find("^native%.") and function() return setmetatable({}, { __index = function() return same end }) end
end)

local FIELDS = { "core.job", "core.prices", "core.parts" }
local WORDS = { "grind", "hone", "polish", "burnish", "collect", "clean", "densify", "dye", "stain", "grout", "fill",
  "patch", "guard", "wait", "check" }

local defaults, seen = {}, {}

local function gather(t)
  if type(t) ~= "table" or seen[t] then return end
  seen[t] = true
  if type(t[1]) == "string" and type(t[2]) == "table" and t.default ~= nil then
    local key = t[1] .. " = " .. tostring(t.default)
    if not defaults[key] then
      defaults[key] = { name = t[1], value = t.default, kind = t[2], key = key }
      defaults[#defaults + 1] = defaults[key]
    end
  end
  for _, inner in pairs(t) do gather(inner) end
end

for _, name in ipairs(FIELDS) do gather(require(name)) end
for _, name in ipairs(WORDS) do gather(require("words." .. name)) end
table.sort(defaults, function(a, b) return a.key < b.key end)

-- ---- another value of the same type

local function other_choice(names, value)
  for i, name in ipairs(names) do if name == value then return names[i % #names + 1] end end
end

local function changed(default)
  local value = default.value
  if type(value) == "boolean" then return tostring(not value) end
  if type(value) == "number" then return tostring(value + 1) end
  if default.kind.names then return ("%q"):format(other_choice(default.kind.names, value)) end
  if value:find("^%u%u%u$") then return '"CHF"' end
  local number = value:match("^%d+%.?%d*")
  if not number then return ('%q'):format("any") end -- the skill of a step
  local other = tonumber(number) == 0 and "7" or ("%.4g"):format(tonumber(number) * 0.7)
  return ("%q"):format(other .. value:sub(#number + 1))
end

-- ---- running

local function run(command)
  local pipe = assert(io.popen(command .. " 2>/dev/null"))
  local text = pipe:read("a")
  pipe:close()
  return text
end

local function write_file(path, text)
  local file = assert(io.open(path, "wb"))
  file:write(text)
  file:close()
end

local function read_file(path)
  local file = assert(io.open(path, "rb"))
  local text = file:read("a")
  file:close()
  return text
end

-- A standard library in which one default reads otherwise.
local function perturb(default)
  write_file(root .. "/stdlib/core/perturbed.lua", default and ("return function(field)\n"
    .. "  if field[1] ~= %q or tostring(field.default) ~= %q then return field end\n"
    .. "  return setmetatable({ default = %s }, { __index = field })\nend\n"):format(default.name,
    tostring(default.value), changed(default)) or "return function(field) return field end\n")
end

local function lay_out()
  run(("rm -rf '%s' && mkdir -p '%s' && cp -r stdlib '%s/'"):format(root, root, root))
  local path = root .. "/stdlib/core/record.lua"
  local text, count = read_file(path):gsub("(\n%s*)local name = field%[1%]\n",
    "%1field = require('core.perturbed')(field)%0", 1)
  assert(count == 1, "record.lua reads fields in another way")
  write_file(path, text)
end

-- Everything that a job costs, by work that was scheduled, but for the assumptions themselves; and the whole
-- answer.
local function outcome(job)
  local text = run(("'%s/gritwork' cost --json --effort=1 --stdlib='%s/stdlib' 'recipes/jobs/%s'"):format(build, root,
    job))
  local cut = text:find('"assumptions": %[')
  return text:sub(1, (cut or 0) - 1), cut and text
end

local function assumed(text)
  local names = {}
  for _, one in ipairs(json.read(text).assumptions) do names[one.what:match("^(.-) of ") or one.what] = true end
  return names
end

lay_out()
for _, job in ipairs { "mill_annex.lua", "north_hall.lua" } do
  perturb(nil)
  local before, text = outcome(job)
  local listed = assumed(text)
  for _, default in ipairs(defaults) do
    perturb(default)
    if outcome(job) == before or listed[default.name] then passed = passed + 1
    else
      failed = failed + 1
      print(("-- %s: %s to %s changes the outcome and is not listed"):format(job, default.key, changed(default)))
    end
  end
end
print(("assumptions: %d passed, %d failed"):format(passed, failed))
os.exit(failed == 0)
