-- sarif_published.lua BUILD - SARIF logs against the schema that is published for the standard, and our own schema
-- of them (tests/outside/sarif.schema.json) beside it. Run by `make test-documents`: npm fetches a package with the
-- schema.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local logs = require "sarif_logs"
local schema = require "schema"
local shell = require "shell"

local PACKAGE = "@microsoft/jest-sarif@1.0.0-beta.0" -- its licence is MIT
local ARCHIVE = "microsoft-jest-sarif-1.0.0-beta.0.tgz"
local SHA512 = "0357ce84f77a21ce620e4e05f583f0d6a341e1717eefe22f891ef197caf617a4"
  .. "33424c7972963d2ec1a4dab1318852047016e3a559d29b058606e9004a4890f4"
local SCHEMA = "package/lib/schemas/sarif-2.1.0-rtm.5.json"

local sh = shell.new(build, "sarif_published")
local same = shell.same
local fetched = build .. "/fetched" -- kept, so that it is fetched once

local function is_sound()
  local sum = shell.read_all(("sha512sum %s/%s 2>/dev/null"):format(fetched, ARCHIVE))
  return sum:match("^%x+") == SHA512
end

local function fetch()
  if is_sound() then return end
  local said = shell.read_all(("mkdir -p %s && cd %s && npm pack --silent %s 2>&1"):format(fetched, fetched, PACKAGE))
  assert(is_sound(), ("npm gives no %s of this SHA-512:\n%s\n%s"):format(PACKAGE, SHA512, said))
end

local function read(path)
  local file = assert(io.open(path, "rb"))
  local text = file:read("a")
  file:close()
  return text
end

sh:test("the package with the published schema is what it was", function()
  fetch()
  local archive = shell.read_all(("realpath %s/%s"):format(fetched, ARCHIVE)):match("[^\n]+")
  sh:sh(("tar xzf %s %s"):format(shell.quote(archive), SCHEMA))
end)

local function judge(text) return schema.judge(sh, sh.folder .. "/" .. SCHEMA, text) end

logs.write(sh)
for _, case in ipairs(logs.CASES) do
  sh:test("a log is valid: " .. case[1], function() same(judge((sh:run("validate --sarif " .. case[2]))), "valid") end)
end

for _, file in ipairs { "recipes/mistakes.lua", "recipes/methods/*.lua", "recipes/jobs/*.lua" } do
  sh:test("the log of shipped examples is valid: " .. file, function()
    same(judge((shell.read_all(("%s/gritwork validate --sarif %s"):format(build, file)))), "valid")
  end)
end

sh:test("a wrong log is not", function()
  local text = sh:run("validate --sarif words.lua")
  assert(judge((text:gsub('"driver"', '"river"', 1))) ~= "valid")
  assert(judge((text:gsub('"startLine": 1', '"startLine": 0', 1))) ~= "valid")
end)

-- ---- our schema beside the published one

local published, ours = json.read(read(sh.folder .. "/" .. SCHEMA)), json.read(read("tests/outside/sarif.schema.json"))
local OWN = { acknowledgement = true } -- no object of the standard
local ALIAS = { base = "artifactLocation" }

local function set_of(list)
  local set = {}
  for _, item in ipairs(list or {}) do set[item] = true end
  return set
end

-- Does our text for a property, both without references, leave out what the published one asks for?
local function is_looser(mine, theirs)
  for _, key in ipairs { "type", "format", "uniqueItems" } do
    if theirs[key] and theirs[key] ~= mine[key] then return key end
  end
  for _, key in ipairs { "minimum", "minItems" } do
    if (theirs[key] or 0) > 0 and (mine[key] or 0) < theirs[key] then return key end
  end
  if theirs.enum then
    local allowed = set_of(theirs.enum)
    for _, word in ipairs(mine.enum or { "any" }) do if not allowed[word] then return "enum" end end
  end
  return nil
end

local function target(property)
  local reference = property["$ref"]
  return reference and reference:match("[^/]+$")
end

local function compare_property(what, mine, theirs)
  assert(theirs, what .. " is not in the published schema")
  local to, their_target = target(mine), target(theirs)
  if to and not (OWN[to] and their_target == "propertyBag") then same(ALIAS[to] or to, their_target, what)
  elseif not to and their_target == "propertyBag" then same(mine.type, "object", what)
  elseif not to then same(is_looser(mine, theirs), nil, what) end
  if mine.items then compare_property(what .. "[]", mine.items, theirs.items) end
  if type(mine.additionalProperties) == "table" and theirs.additionalProperties then
    compare_property(what .. ".*", mine.additionalProperties, theirs.additionalProperties)
  end
end

-- One of a list of ways must be kept to where the published object gives ways; else all that it requires.
local function keeps_required(mine, theirs)
  local required = set_of(mine.required)
  for _, name in ipairs(theirs.required or {}) do if not required[name] then return false end end
  if not theirs.anyOf then return true end
  for _, way in ipairs(theirs.anyOf) do if keeps_required(mine, way) then return true end end
  return false
end

local function compare_object(name, mine, theirs)
  assert(theirs, name .. " is not in the published schema")
  assert(keeps_required(mine, theirs), name .. " requires less")
  same(mine.additionalProperties, theirs.additionalProperties, name)
  for key, property in pairs(mine.properties) do
    compare_property(name .. "." .. key, property, theirs.properties[key])
  end
end

sh:test("our schema is nowhere looser than the published one", function()
  compare_object("sarifLog", ours, published)
  local compared = 1
  for name, mine in pairs(ours["$defs"]) do
    if not OWN[name] then
      compare_object(name, mine, published.definitions[ALIAS[name] or name])
      compared = compared + 1
    end
  end
  assert(compared > 20)
end)

sh:finish()
