--- The examples of the rules: what breaks each and what keeps to it, as whole scripts.
--
-- An example is written as the part that matters. One for a rule of steps or recipes is put into a recipe, one for
-- a rule of jobs or plans (or marked `in_job`) into a small job, which gets the parts that the example does not
-- bring. A text that begins with `return` or `local` is whole already.
local examples = {}

local HEAD = 'units = "us", start = "2027-03-01 07:00", shifts = { day = { hours = "7:00 to 16:00" } },\n'

local PRICES = [[
prices = prices "book" {
  labour = { operator = "$30/h", lead = "$40/h" },
  tools = {
    ["metal 40"] = { price = "$300", life = "9000 sqft/set" }, ["metal 80"] = { price = "$300", life = "9000 sqft/set" },
    ["resin 100"] = { price = "$180", life = "6000 sqft/set" }, ["resin 200"] = { price = "$180", life = "7000 sqft/set" },
    ["fibre 3000"] = { price = "$65", life = "30000 sqft/set" },
  },
  materials = {
    ["stain guard"] = { { size = "5 gal", price = "$410" } }, ["polyurea"] = { { size = "2 gal", price = "$140" } },
    ["acetone dye"] = { { size = "1 gal", price = "$62" } },
    ["lithium silicate"] = { { size = "5 gal", price = "$205" } },
  },
  machines = {
    planetary = { hour = "$20/h" }, edger = { hour = "$5/h" }, vacuum = { hour = "$4/h" }, burnisher = { day = "$60" },
  },
  extras = { ["slurry disposal"] = { price = "$1", per = "gal slurry" } },
},
]]

local PLANETARY = 'machine "planetary" { does = { "grind", "hone", "polish", "edges" }, wet = true, width = "28 in" },\n'
local VACUUM = 'machine "vacuum" { does = { "collect", "clean" } },\n'
local CREW = 'crew "operator" { count = 2, skills = { "any" }, shift = "day" },\n'
local AREA = 'area "hall" { recipe = recipe "house" { hone "100" { grit = 100, bond = "resin", passes = 4 } },\n'
  .. '  length = "20 ft", width = "20 ft" },\n'

local function has(text, word) return text:find("%f[%w]" .. word .. ' "') ~= nil end

-- The machines that the steps of a text need and it does not bring: one that stands idle would be a finding.
local function machines(text)
  local abrades = not has(text, "area") or has(text, "grind") or has(text, "hone") or has(text, "polish")
  local washes = has(text, "collect") or has(text, "clean")
  if has(text, "machine") then return washes and not text:find("%f[%w]vacuum%f[%W]\" {") and VACUUM or "" end
  return (abrades and PLANETARY or "") .. (washes and VACUUM or "")
end

local function in_job(text)
  local out = { 'return job "example" {\n' }
  for _, field in ipairs { { "units", HEAD }, { "prices", PRICES } } do
    if not text:find("^%s*" .. field[1] .. "%s*=") and not text:find("\n%s*" .. field[1] .. "%s*=") then
      out[#out + 1] = field[2]
    end
  end
  out[#out + 1] = has(text, "crew") and "" or CREW
  out[#out + 1] = machines(text)
  out[#out + 1] = has(text, "area") and "" or AREA
  out[#out + 1] = text:gsub("%s+$", "") .. "\n}\n"
  return table.concat(out)
end

--- An example as people read it, without the blanks that indent all of it.
function examples.text(text)
  text = text:gsub("^%s*\n", ""):gsub("%s+$", "")
  local indent
  for blanks in ("\n" .. text):gmatch("\n( *)%f[^ \n]") do
    if not indent or #blanks < #indent then indent = blanks end
  end
  return (("\n" .. text):gsub("\n" .. (indent or ""), "\n"):sub(2))
end

--- The whole script of one of a rule's examples.
function examples.script(rule, text)
  text = examples.text(text)
  if text:find("^%s*return%f[%W]") or text:find("^%s*local%f[%W]") then return text end
  if rule.scope == "job" or rule.scope == "plan" or rule.in_job then return in_job(text) end
  return 'return recipe "example" {\n' .. text:gsub("%s+$", "") .. "\n}\n"
end

return examples
