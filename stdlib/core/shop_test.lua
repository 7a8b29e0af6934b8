--- Running the tests that a shop wrote.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local rules = require "core.rules"

local shop_test = {}

local function tests_in(result)
  local data = object.data(result, document.class)
  if data and data.word == "test" then return { data } end
  local list = {}
  if object.is_plain(result) then
    for i, item in ipairs(result) do
      local inner = object.data(item, document.class)
      if inner and inner.word == "test" then list[i] = inner end
    end
    if #list > 0 and #list == #result then return list end
  end
  finding.error { code = "document", message = "a test file returns a test, or a list of tests",
    help = 'end it with: return { test "name" { of = ..., finds = { ... } } }' }
  return {}
end

local function check(of)
  if type(of) == "function" then of = of() end
  local data = object.data(of, document.class)
  if data then rules.run(data) end
  return data ~= nil
end

local function sorted_set(list)
  local seen, set = {}, {}
  for _, code in ipairs(list) do
    if not seen[code] then
      seen[code] = true
      set[#set + 1] = code
    end
  end
  table.sort(set)
  return set
end

local function outcome(test, codes, made)
  if not made then return "`of` gives no recipe or job" end
  local wanted, found = sorted_set(test.record.values.finds), sorted_set(codes)
  local a, b = table.concat(wanted, ", "), table.concat(found, ", ")
  if a == b then return nil end
  return ("wanted %s; found %s"):format(a ~= "" and a or "nothing", b ~= "" and b or "nothing")
end

--- Runs what a test file returned. Answers a report, how many passed, how many failed.
function shop_test.run(result)
  local lines, passed, failed = {}, 0, 0
  for _, test in ipairs(tests_in(result)) do
    if not test.record.faults then
      local mark = finding.mark()
      local made = check(test.record.values.of)
      local wrong = outcome(test, finding.take(mark), made)
      if wrong then
        failed = failed + 1
        lines[#lines + 1] = ("failed: %s: %s\n"):format(test.name, wrong)
      else
        passed = passed + 1
      end
    end
  end
  return table.concat(lines), passed, failed
end

return shop_test
