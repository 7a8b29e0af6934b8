-- sarif.lua BUILD - `validate --sarif` against what the standard demands (tests/outside/sarif.schema.json), and the
-- promises that gritwork adds to it.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local schema = require "schema"
local shell = require "shell"

local sh = shell.new(build, "sarif")
local same = shell.same

local WORK = [[
return recipe "case" {
  hone "30" { grit = 30, bond = "resin", passes = 4 },
  hone "200" { grit = 200, bond = "resin", passes = 4 },
  hone "400" { grit = 400, bond = "resin" passes = 4 },
}
]]

local SOUND = [[
return recipe "sound" {
  hone "30" { grit = 30, bond = "resin", passes = 4 },
  hone "200" { grit = 200, bond = "resin", passes = 4 },
}
]]

local function log_of(arguments)
  local text, status = sh:run("validate --sarif " .. arguments)
  return json.read(text), text, status
end

local function results_of(arguments)
  return log_of(arguments).runs[1].results
end

local function judge(text) return schema.judge(sh, "tests/outside/sarif.schema.json", text) end

local function with_code(results, code)
  for _, result in ipairs(results) do if result.ruleId == code then return result end end
  error("no result " .. code)
end

sh:write("a b/syntax.lua", WORK)
sh:write("rule.lua", SOUND)
sh:write("words.lua", 'return recipe "x" { hone "200" { grit = 200, bond = "resn" } }\n')
sh:write("wide.lua", 'return recipe "x" { --[[ \u{1F600}\u{4E2D} ]] hne "200" { grit = 200 } }\n')

sh:test("a log of many kinds of findings keeps to the standard", function()
  for _, files in ipairs { "rule.lua", "'a b/syntax.lua' rule.lua words.lua wide.lua", "missing.lua" } do
    local _, text = log_of(files)
    same(judge(text), "valid", files)
  end
end)

sh:test("the schema refuses a log with a property missing or misspelt", function()
  local _, text = log_of("words.lua")
  for _, change in ipairs { { '"driver"', '"river"' }, { '"version": "2.1.0"', '"version": "2.0.0"' },
    { '"startLine": 1', '"startLine": 0' }, { '"uri": "words.lua"', '"uri": "/words.lua"' } } do
    local broken, times = text:gsub(change[1]:gsub("%p", "%%%0"), change[2], 1)
    same(times, 1, change[1])
    assert(judge(broken) ~= "valid", "passes: " .. change[2])
  end
end)

sh:test("the same findings as JSON keep to their schema", function()
  local text = sh:run("validate --json 'a b/syntax.lua' rule.lua words.lua wide.lua missing.lua")
  same(schema.judge(sh, "docs/schema/findings.json", text), "valid")
end)

sh:test("exit status is that of any validation", function()
  local _, _, fine = log_of("rule.lua")
  local _, _, unreadable = log_of("missing.lua")
  same(fine, 1)
  same(unreadable, 3)
end)

sh:test("an unreadable file makes the run unsuccessful", function()
  same(log_of("missing.lua").runs[1].invocations[1].executionSuccessful, false)
  same(log_of("rule.lua").runs[1].invocations[1].executionSuccessful, true)
end)

sh:test("file names are relative and encoded", function()
  local place = results_of("'a b/syntax.lua'")[1].locations[1].physicalLocation.artifactLocation
  same(place.uri, "a%20b/syntax.lua")
  same(place.uriBaseId, "START")
end)

sh:test("columns count code points, the end is exclusive", function()
  local region = with_code(results_of("wide.lua"), "name").locations[1].physicalLocation.region
  same(("%d:%d-%d:%d"):format(region.startLine, region.startColumn, region.endLine, region.endColumn), "1:32-1:35")
end)

sh:test("labels are related locations with their words", function()
  local related = with_code(results_of("rule.lua"), "grit-step").relatedLocations
  assert(#related > 0)
  same(related[1].message.text, "the abrasive before it")
  same(related[1].physicalLocation.artifactLocation.uri, "rule.lua")
end)

sh:test("a fix is a replacement that says whether it is safe", function()
  local fix = with_code(results_of("'a b/syntax.lua'"), "syntax").fixes[1]
  local change = fix.artifactChanges[1].replacements[1]
  same(change.insertedContent.text, ",")
  same(change.deletedRegion.startColumn, change.deletedRegion.endColumn)
  same(fix.properties.safe, true)
end)

sh:test("every result names a rule that says what it stands for", function()
  local run = log_of("'a b/syntax.lua' rule.lua words.lua").runs[1]
  local rules = run.tool.driver.rules
  for _, result in ipairs(run.results) do
    local rule = rules[result.ruleIndex + 1]
    same(rule.id, result.ruleId)
    assert(#rule.shortDescription.text > 0 and #rule.help.text > 0)
  end
end)

local function prints(text)
  sh:write("moved.lua", text)
  local list = {}
  for i, result in ipairs(results_of("moved.lua")) do list[i] = result.partialFingerprints["findingText/v1"] end
  return table.concat(list, " ")
end

sh:test("a fingerprint outlives a shift of lines", function()
  same(prints("\n\n-- more\n" .. SOUND), prints(SOUND))
end)

sh:test("two findings alike have two fingerprints", function()
  local twice = SOUND:gsub("}\n$", '  hone "b" { grit = 30, bond = "resin", passes = 4 },\n'
    .. '  hone "c" { grit = 200, bond = "resin", passes = 4 },\n}\n')
  local seen = {}
  for print in prints(twice):gmatch("%S+") do
    assert(not seen[print], "twice: " .. print)
    seen[print] = true
  end
end)

sh:test("another text at the same place has another fingerprint", function()
  assert(prints(SOUND) ~= prints((SOUND:gsub("30", "40"))))
end)

sh:test("every code that a test of the language expects can be looked up", function()
  local cases, seen, codes = shell.read_all("cat tests/language/*.cases"), {}, {}
  for code in cases:gmatch("%-%-%^ %l+%[([%l%d-]+)%]") do
    local own = cases:find(('rule "%s"'):format(code), 1, true) -- of a shop
    if not seen[code] and not own then codes[#codes + 1], seen[code] = code, true end
  end
  assert(#codes > 30)
  for i = 1, #codes, 16 do
    local text, status = sh:run("words " .. table.concat(codes, " ", i, math.min(i + 15, #codes)))
    same(status, 0, text)
  end
end)

sh:finish()
