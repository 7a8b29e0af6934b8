-- limits.lua BUILD - figures that no floor has: refused by name where they are written, never wrapped, never
-- endless.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "limits")
local same, holds = shell.same, shell.holds

sh:run("new --out=shop")
local JOB, PRICES = sh:read("shop/first_job.lua"), sh:read("shop/house_prices.lua")

-- Puts one text in the place of another, which must be there.
local function with(text, from, to)
  local begin, stop = text:find(from, 1, true)
  assert(begin, from)
  return text:sub(1, begin - 1) .. to .. text:sub(stop + 1)
end

local SIZE = 'length = "50 ft", width = "40 ft"'

-- What is changed in the job or the price book, to what, and the finding.
local REFUSED = {
  { "prices", "$33/h", "$-33/h", "error[range]: `operator`" },
  { "prices", "$33/h", "$1e300/h", "error[money]: `rate` of labour operator" },
  { "prices", "$33/h", "$922337203685000/h", "error[cost-overflow]: `LAB-operator`" },
  { "prices", "$600", "$922337203685477", "error[cost-overflow]" },
  { "prices", "$180", "$-1", "error[range]: `price`" },
  { "prices", "$48", "$1e18", "error[money]" },
  { "prices", "6000 sqft/set", "0 sqft/set", "error[" },
  { "prices", 'margin = "18 %"', 'margin = "100 %"', "no price" },
  { "prices", 'margin = "18 %"', 'margin = "99.9999999 %"', "error[money]: `margin`" },
  { "prices", 'overhead = "12 %"', 'overhead = "1e18 %"', "error[range]: `overhead`" },
  { "job", SIZE, 'area = "1e12 m2", edges = "0 ft"', "error[range]: `area`" },
  { "job", SIZE, 'area = "1e300 m2", edges = "0 ft"', "error[range]: `area`" },
  { "job", SIZE, 'area = "-5 m2", edges = "0 ft"', "error[range]: `area`" },
  { "job", SIZE, 'area = "500 sqft", edges = "1e30 ft"', "error[range]: `edges`" },
  { "job", "50 ft", "1e9 ft", "error[range]: `length`" },
  { "job", '"7:00 to 16:00"', '"7:00 to 7:01"', "error[too-long]" },
  { "job", "2027-03-01 07:00", "0001-01-01 00:00", "error[date]: `start`" },
  { "job", "2027-03-01 07:00", "3000-01-01 00:00", "error[date]: `start`" },
  { "job", "2027-03-01 07:00", "9999-12-31 23:59", "error[date]: `start`" },
  { "job", 'job "first job"', 'job(("x"):rep(1000000))', "error[range]: the name of this `job` has 1000000 bytes" },
  { "job", 'area "main floor"', 'area(("x"):rep(201))', "error[range]: the name of this `area` has 201 bytes" },
  { "job", 'crew "lead"', 'crew " "', "error[range]: the name of this `crew` is empty" },
  { "job", 'units = "us"', 'units = "us", client = ("x"):rep(4001)', "error[range]: `client`" },
  { "job", 'does = { "collect", "clean" }', 'does = { "collect", "clean" }, rate = "0 sqft/h"', "error[range]: `rate`" },
  { "prices", '["resin 100"]', '[("x"):rep(201)]', "error[range]" },
  { "job", 'skills = { "machine", "chemicals" }', 'count = 1000000, skills = { "machine" }', "error[range]: `count`" },
  { "job", 'units = "us"', 'units = "us", finish_by = "2027-03-01 07:01"', "error[late]" },
}

for _, case in ipairs(REFUSED) do
  local file, from, to, finding = table.unpack(case)
  sh:test(("%s for %s in the %s"):format(to, from, file), function()
    sh:write("shop/house_prices.lua", file == "prices" and with(PRICES, from, to) or PRICES)
    sh:write("shop/first_job.lua", file == "job" and with(JOB, from, to) or JOB)
    local text, status = sh:run("cost --effort=1 shop/first_job.lua")
    same(status, 1, text)
    holds(text, finding)
    assert(#text < 6000, "too many words:\n" .. text:sub(1, 2000))
  end)
end

sh:test("the largest wage that fits is charged in full", function()
  sh:write("shop/house_prices.lua", with(PRICES, "$33/h", "$1000000000/h"))
  sh:write("shop/first_job.lua", JOB)
  local text, status = sh:run("cost --json --effort=1 shop/first_job.lua")
  same(status, 0, text)
  local hours, amount = text:match('"code": "LAB%-operator".-"quantity": ([%d.]+).-"amount": ([%d.]+)')
  same(("%.2f"):format(hours * 1000000000), amount)
end)

sh:finish()
