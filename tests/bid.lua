-- bid.lua BUILD - `gritwork bid` from outside: the same bytes every time, all or nothing, figures as in the other
-- outputs.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local schema = require "schema"
local shell = require "shell"

local sh = shell.new(build, "bid")
local same, holds = shell.same, shell.holds

local JOB = "recipes/jobs/mill_annex.lua"
sh:copy "recipes"

-- `gritwork bid` into the folder `out`: what it said, and its status. Little effort is enough for what is looked at
-- here.
local function bid(out, job, environment)
  return sh:sh(("%s %s bid --effort=1 --out=%s %s"):format(environment or "", shell.quote(sh.gritwork), out, job or JOB))
end

local function is_same(a, b) return sh:sh(("diff -rq %s %s"):format(a, b)) == "" end
local function names(out) return (sh:sh("ls -A " .. out)) end
local function data_of(out) return json.read(sh:read(out .. "/bid.json")) end
local function cost_of(job) return json.read((sh:run("cost --json --effort=1 " .. job))) end
local function cents(value) return math.floor(value * 100 + 0.5) end

-- The job written again as `name`, with its one `from` replaced.
local function edited(name, from, to)
  local text, count = sh:read(JOB):gsub(from, to)
  same(count, 1, "changes")
  local path = ("recipes/jobs/%s.lua"):format(name)
  sh:write(path, text)
  return path
end

sh:test("a sound job makes a bid", function()
  local said, status = bid "one"
  same(status, 0, said)
end)
local data = data_of "one"

sh:test("a run elsewhere gives the same bytes; a time that is no number is as if it were not set", function()
  bid("two", JOB, "TZ=Asia/Tokyo LANG=de_DE.UTF-8 LC_ALL=de_DE.UTF-8 HOME=/nowhere SOURCE_DATE_EPOCH=soon")
  assert(is_same("one", "two"))
end)

sh:test("SOURCE_DATE_EPOCH dates the papers", function()
  bid("dated", JOB, "SOURCE_DATE_EPOCH=1700000000")
  holds(sh:read "dated/proposal.html", "2023-11-14")
  assert(not is_same("one", "dated"))
end)

sh:test("bid.json is valid by its schema", function()
  same(schema.judge(sh, "docs/schema/bid.json", sh:read "one/bid.json"), "valid")
end)

sh:test("the bid is priced as the cost is", function()
  local cost = cost_of(JOB)
  for _, sum in ipairs { "price", "cost", "direct" } do same(data[sum], cost[sum], sum) end
end)

for _, case in ipairs { { "areas", "price", "the areas" }, { "build", "amount", "what the price is made of" } } do
  sh:test(case[3] .. ": the sum is the price", function()
    local sum = 0
    for _, part in ipairs(data[case[1]]) do sum = sum + cents(part[case[2]]) end
    same(sum, cents(data.price))
  end)
end

sh:test("bid.json names the files beside it", function()
  local listed = { "bid.json", table.unpack(data.files) }
  table.sort(listed)
  same(names "one", table.concat(listed, "\n") .. "\n")
end)

for _, name in ipairs { "proposal.html", "package.html", "crew_sheet.html", "crew_sheet_es.html" } do
  sh:test(name .. " bears the fingerprint of what it was made from", function()
    holds(sh:read("one/" .. name), data.fingerprint:sub(1, 16))
  end)
end

sh:test("another source has another fingerprint", function()
  bid("other", edited("old_mill", '"mill annex', '"old mill'))
  assert(data_of("other").fingerprint ~= data.fingerprint)
end)

sh:test("an alternate is priced as the job would be with it, and leaves the price as it is", function()
  local gallery = '  area "gallery"      { recipe = again,'
  bid("alternate", edited("alternate", gallery,
    '  alternate "wet gallery" { area = "gallery", recipe = cream },\n' .. gallery))
  local with = data_of "alternate"
  same(with.price, data.price)
  same(#with.alternates, 1)
  same(with.alternates[1].price, cost_of(edited("instead", gallery, '  area "gallery"      { recipe = cream,')).price)
  holds(sh:read "alternate/proposal.html", "wet gallery")
  local text, status = sh:run "cost --effort=1 --json '--alternate=wet gallery' recipes/jobs/alternate.lua 2>&-"
  same(status, 0, text)
  same(json.read(text).price, with.alternates[1].price)
end)

sh:test("an alternate that the job does not have is refused", function()
  local text, status = sh:run "why '--alternate=wet galery' recipes/jobs/alternate.lua price"
  same(status, 1)
  holds(text, "did you mean `wet gallery`?")
end)

sh:test("the PDF is one, the workbook is one, by their first bytes", function()
  same(sh:read("one/proposal.pdf"):sub(1, 5), "%PDF-")
  same(sh:read("one/bid.xlsx"):sub(1, 4), "PK\3\4")
end)

sh:test("an error stands in the way of a bid, and nothing is written", function()
  sh:sh("sed -i.sound 's/operator/oprator/' recipes/prices/house_metric.lua")
  local said, status = bid "refused"
  sh:sh("mv recipes/prices/house_metric.lua.sound recipes/prices/house_metric.lua")
  same(status, 1)
  holds(said, "no price for crew `operator`")
  holds(names "refused", "No such file")
end)

sh:test("a missing helper is said, and nothing is written", function()
  sh:sh(("cp %s alone"):format(shell.quote(sh.gritwork)))
  local said, status = sh:sh("./alone bid --effort=1 --out=alone_out " .. JOB)
  same(status, 3)
  holds(said, "gritwork-press is not beside")
  holds(names "alone_out", "No such file")
end)

-- The helper by itself: what is not what it should be makes no file.
local REFUSED = {
  { "x.pdf", "marquee\tx" }, { "x.pdf", "" }, { "x.pdf", "text\\tno beginning" }, { "x.txt", "book" },
  { "x.xlsx", "cell\t0\t0\ttext\tt\tx" }, { "x.xlsx", "book\tx\t2027-01-01" },
}
for _, case in ipairs(REFUSED) do
  sh:test(("the press refuses %s from `%s`"):format(case[1], case[2]), function()
    local _, status = sh:sh(("printf '%s\\n' | %s-press %s >pressed"):format(case[2], shell.quote(sh.gritwork), case[1]))
    same(status, case[1] == "x.txt" and 2 or 1)
  end)
end

sh:finish()
