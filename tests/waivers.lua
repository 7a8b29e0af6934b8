-- waivers.lua BUILD - who reads a sheet or a cost is told which rules somebody answers for breaking.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local JOB = [[
local method = recipe "method" {
  waive "grit-step" { step = "400", reason = "the mock-up showed no scratch", by = "A. Foreman" },
  hone "100" { grit = 100, bond = "resin", passes = 4 }, polish "400" { grit = 400, bond = "resin", passes = 4 },
}
local plain = recipe "plain" { hone "100" { grit = 100, bond = "resin", passes = 4 } }
return job "waived" {
  units = "us", start = "2027-03-01 07:00", shifts = { day = { hours = "7:00 to 16:00" } },
  waive "machine-idle" { reason = "it stands by", by = "B. Owner" },
  waive "edges-match" { area = "shop", reason = "never broken here", by = "B. Owner" },
  prices = prices "book" { labour = { operator = "$30/h" }, margin = "10 %",
    machines = { planetary = { hour = "$20/h" }, spare = { hour = "$20/h" } },
    tools = { ["resin 100"] = { price = "$95", life = "9000 sqft/set" },
      ["resin 400"] = { price = "$95", life = "9000 sqft/set" } } },
  crew "operator" { count = 2, skills = { "any" }, shift = "day" },
  machine "planetary" { does = { "hone", "polish", "edges" }, width = "28 in" },
  machine "spare" { does = { "burnish" }, width = "27 in" },
  area "shop" { recipe = method, length = "20 ft", width = "20 ft" },
  area "store" { recipe = plain, length = "20 ft", width = "20 ft" },
}
]]

local sh = shell.new(build, "waivers")
local same, holds, lacks = shell.same, shell.holds, shell.lacks

sh:write("waived.lua", JOB)

local function printed(command) return (sh:run(command .. " waived.lua 2>/dev/null")) end

local function count(text, part)
  local _, times = text:gsub(part, "")
  return times
end

sh:test("a waived finding is a note, a waiver that covers nothing a warning", function()
  local found = printed "validate --short"
  same(count(found, "note%[grit%-step%]"), 1, found)
  same(count(found, "waiver%-unused"), 1, found)
  lacks(found, "error")
end)

local sheet = printed "sheet"

sh:test("the area's sheet names a waiver, that of another area does not", function()
  local shop, store = sheet:match("^(.-)\nSHEET(.*)$")
  holds(shop, "grit-step: step 400: the mock-up showed no scratch (A. Foreman)")
  lacks(store, "grit-step")
end)

sh:test("a waiver of the whole job stands on every sheet, one that covers nothing on none", function()
  same(count(sheet, "machine%-idle: it stands by %(B%. Owner%)"), 2, sheet)
  lacks(sheet, "edges-match")
end)

sh:test("the cost names each once", function()
  local cost = printed "cost"
  for _, code in ipairs { "grit%-step: ", "machine%-idle: " } do same(count(cost, code), 1, cost) end
end)

sh:test("programs get it too", function()
  holds(printed "sheet --json", '"reason": "the mock-up showed no scratch"')
end)

sh:finish()
