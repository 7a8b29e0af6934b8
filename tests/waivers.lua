-- waivers.lua BUILD - who reads a sheet or a cost is told which rules somebody answers for breaking.
local build = arg[1]
local passed, failed = 0, 0

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

local function output(command)
  local pipe = io.popen(("'%s/gritwork' %s '%s/waived.lua' 2>/dev/null"):format(build, command, build))
  local text = pipe:read("a")
  pipe:close()
  return text
end

local function check(condition, what, text)
  if condition then passed = passed + 1 else
    failed = failed + 1
    print("-- " .. what .. "\n" .. text)
  end
end

local function count(text, part)
  local n = 0
  for _ in text:gmatch(part) do n = n + 1 end
  return n
end

local file = assert(io.open(build .. "/waived.lua", "w"))
file:write(JOB)
file:close()

local found = output "validate --short"
check(count(found, "note%[grit%-step%]") == 1 and count(found, "error") == 0, "a waived finding is a note", found)
check(count(found, "waiver%-unused") == 1, "a waiver that covers nothing is a warning", found)

local sheet = output "sheet"
local shop, store = sheet:match("^(.-)\nSHEET(.*)$")
check(shop:find("grit-step: step 400: the mock-up showed no scratch (A. Foreman)", 1, true),
  "the area's sheet names it", sheet)
check(not store:find("grit-step", 1, true), "the sheet of another area does not", sheet)
check(count(sheet, "machine%-idle: it stands by %(B%. Owner%)") == 2,
  "a waiver of the whole job stands on every sheet", sheet)
check(not sheet:find("edges-match", 1, true), "a waiver that covers nothing stands on none", sheet)

local cost = output "cost"
check(count(cost, "grit%-step: ") == 1 and count(cost, "machine%-idle: ") == 1, "the cost names each once", cost)

local json = output "sheet --json"
check(json:find('"reason": "the mock-up showed no scratch"', 1, true), "programs get it too", json)

print(("waivers: %d passed, %d failed"):format(passed, failed))
os.exit(failed == 0)
