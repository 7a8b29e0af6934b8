-- bid.lua BUILD - `gritwork bid` from outside: the same bytes every time, all or nothing, figures as in the other outputs.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"

local JOB = "recipes/jobs/mill_annex.lua"
local folder = build .. "/tests/bid"
local passed, failed = 0, 0

local function output(command)
  local pipe = io.popen(command .. " 2>&1")
  local text = pipe:read("a")
  local _, _, status = pipe:close()
  return text, status
end

local function check(condition, what, text)
  if condition then passed = passed + 1 return end
  failed = failed + 1
  print("-- " .. what .. "\n" .. (text or ""))
end

local function content(name)
  local file = io.open(name, "rb")
  local text = file and file:read("a")
  if file then file:close() end
  return text
end

local function bid(out, job, environment, program)
  return output(("%s %s bid --out=%s/%s %s"):format(environment or "", program or build .. "/gritwork", folder, out, job or JOB))
end

local function names(out) return (output(("ls -A %s/%s"):format(folder, out))) end

local function same(a, b) return output(("diff -rq %s/%s %s/%s"):format(folder, a, folder, b)) == "" end

output(("rm -rf %s && mkdir -p %s"):format(folder, folder))

-- The same bytes, whatever the surroundings say.
local said, status = bid("one")
check(status == 0, "a sound job makes a bid", said)
bid("two", JOB, "TZ=Asia/Tokyo LANG=de_DE.UTF-8 LC_ALL=de_DE.UTF-8 HOME=/nowhere SOURCE_DATE_EPOCH=soon")
check(same("one", "two"), "a second run elsewhere gives the same bytes; a time that is no number is as if it were not set")

-- SOURCE_DATE_EPOCH dates the papers; without it nothing says a date of today.
bid("dated", JOB, "SOURCE_DATE_EPOCH=1700000000")
check(content(folder .. "/dated/proposal.html"):find("2023-11-14", 1, true), "SOURCE_DATE_EPOCH dates the proposal")
check(not same("one", "dated"), "and changes the files")

-- bid.json: its schema, its files, its figures.
local valid, fits = output(("python3 tests/json_schema.py docs/schema/bid.json < %s/one/bid.json"):format(folder))
check(fits == 0, "bid.json is valid by its schema", valid)
local data = json.read(content(folder .. "/one/bid.json"))
local cost = json.read((output(("%s/gritwork cost --json %s"):format(build, JOB))))
check(data.price == cost.price and data.cost == cost.cost and data.direct == cost.direct, "the bid is priced as the cost is")

local function cents(value) return math.floor(value * 100 + 0.5) end
local areas, parts = 0, 0
for _, area in ipairs(data.areas) do areas = areas + cents(area.price) end
for _, part in ipairs(data.build) do parts = parts + cents(part.amount) end
check(areas == cents(data.price), "the areas add up to the price", tostring(areas))
check(parts == cents(data.price), "what the price is made of adds up to it", tostring(parts))

local listed = { "bid.json" }
for _, name in ipairs(data.files) do listed[#listed + 1] = name end
table.sort(listed)
check(names("one") == table.concat(listed, "\n") .. "\n", "bid.json names the files beside it", names("one"))

-- Every paper is marked with the fingerprint of what it was made from, and another source has another.
local mark = data.fingerprint:sub(1, 16)
for _, name in ipairs { "proposal.html", "package.html", "crew_sheet.html", "crew_sheet_es.html" } do
  check(content(folder .. "/one/" .. name):find(mark, 1, true), name .. " bears the fingerprint")
end
output(("cp -r recipes %s/recipes && sed -i 's/mill annex/old mill/' %s/recipes/jobs/mill_annex.lua"):format(folder, folder))
bid("other", folder .. "/recipes/jobs/mill_annex.lua")
check(json.read(content(folder .. "/other/bid.json")).fingerprint ~= data.fingerprint, "another source has another fingerprint")

-- An alternate is priced as the job would be with it.
local function edited(name, from, to)
  local file = assert(io.open(folder .. "/recipes/jobs/" .. name .. ".lua", "w"))
  local text, count = content(JOB):gsub(from, to)
  check(count == 1, name .. " differs from the job")
  file:write(text)
  file:close()
  return folder .. "/recipes/jobs/" .. name .. ".lua"
end
local GALLERY = '  area "gallery"      { recipe = again,'
bid("alternate", edited("alternate", GALLERY, '  alternate "wet gallery" { area = "gallery", recipe = cream },\n' .. GALLERY))
local other = edited("instead", GALLERY, '  area "gallery"      { recipe = cream,')
local with, instead = json.read(content(folder .. "/alternate/bid.json")),
  json.read((output(("%s/gritwork cost --json %s"):format(build, other))))
check(with.price == data.price, "an alternate leaves the price as it is", tostring(with.price))
check(#with.alternates == 1 and with.alternates[1].price == instead.price, "and has the price of the job done so",
  ("%s, not %s"):format(with.alternates[1] and with.alternates[1].price, instead.price))
check(content(folder .. "/alternate/proposal.html"):find("wet gallery", 1, true), "the proposal offers it")

-- What the files are, by their first bytes.
check(content(folder .. "/one/proposal.pdf"):sub(1, 5) == "%PDF-", "the PDF is one")
check(content(folder .. "/one/bid.xlsx"):sub(1, 4) == "PK\3\4", "the workbook is one")

-- All or nothing.
output(("sed -i 's/operator/oprator/' %s/recipes/prices/house_metric.lua"):format(folder))
said, status = bid("refused", folder .. "/recipes/jobs/mill_annex.lua")
check(status == 1 and said:find("no price for crew `operator`", 1, true), "an error stands in the way of a bid", said)
check(names("refused"):find("No such file", 1, true), "and nothing is written", names("refused"))
output(("cp %s/gritwork %s/alone"):format(build, folder))
said, status = bid("alone_out", JOB, "", folder .. "/alone")
check(status == 3 and said:find("gritwork-press is not beside", 1, true), "a missing helper is said", said)
check(names("alone_out"):find("No such file", 1, true), "and nothing is written then either", names("alone_out"))

-- The helper by itself: what is not what it should be makes no file.
for _, case in ipairs { { "x.pdf", "marquee\tx" }, { "x.pdf", "" }, { "x.xlsx", "cell\t0\t0\ttext\tt\tx" }, { "x.txt", "book" },
                        { "x.xlsx", "book\tx\t2027-01-01" }, { "x.pdf", "text\\tno beginning" } } do
  local _, code = output(("printf '%s\\n' | %s/gritwork-press %s > %s/pressed"):format(case[2], build, case[1], folder))
  check(code ~= 0, "the press refuses " .. case[1] .. " from `" .. case[2] .. "`")
end

print(("bid: %d passed, %d failed"):format(passed, failed))
os.exit(failed == 0)
