-- sarif.lua BUILD - `validate --sarif` against what the standard demands (tests/outside/sarif.schema.json), and the
-- promises that gritwork adds to it.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local logs = require "sarif_logs"
local schema = require "schema"
local shell = require "shell"

local sh = shell.new(build, "sarif")
local same, lacks = shell.same, shell.lacks

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

logs.write(sh)

for _, case in ipairs(logs.CASES) do
  sh:test("a log keeps to the standard: " .. case[1], function()
    local log, text = log_of(case[2])
    same(judge(text), "valid")
    local artifacts = log.runs[1].artifacts
    for uri, index in text:gmatch('"uri": "([^"]*)",%s+"uriBaseId": "START",%s+"index": (%d+)') do
      same(artifacts[tonumber(index) + 1].location.uri, uri)
    end
  end)
end

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
  local text = sh:run("validate --json 'a b/broken.lua' step.lua words.lua wide.lua missing.lua waived.lua "
    .. "acknowledged.lua")
  same(schema.judge(sh, "docs/schema/findings.json", text), "valid")
end)

sh:test("exit status is that of any validation", function()
  local _, _, fine = log_of("step.lua")
  local _, _, unreadable = log_of("missing.lua")
  same(fine, 1)
  same(unreadable, 3)
end)

sh:test("an unreadable file makes the run unsuccessful", function()
  local invocation = log_of("missing.lua").runs[1].invocations[1]
  same(invocation.executionSuccessful, false)
  same(invocation.exitCode, 3)
  invocation = log_of("step.lua").runs[1].invocations[1]
  same(invocation.executionSuccessful, true)
  same(invocation.exitCode, 1)
end)

sh:test("what kept the program from looking is a notification and no result", function()
  for file, code in pairs { ["missing.lua"] = "file", ["forever.lua"] = "budget" } do
    local run = log_of(file).runs[1]
    same(#run.results, 0)
    local told = run.invocations[1].toolExecutionNotifications
    same(#told, 1)
    same(told[1].descriptor.id, code)
    same(told[1].level, "error")
  end
  same(log_of("step.lua").runs[1].invocations[1].toolExecutionNotifications, nil)
end)

sh:test("every file that was read is an artifact with its SHA-256, once", function()
  local artifacts = log_of("child.lua step.lua parent.lua").runs[1].artifacts
  local names = {}
  for i, artifact in ipairs(artifacts) do
    names[i] = artifact.location.uri
    same(artifact.hashes["sha-256"], sh:sh("sha256sum " .. artifact.location.uri):match("%x+"))
    same(artifact.length, #sh:read(artifact.location.uri))
  end
  same(table.concat(names, " "), "child.lua parent.lua step.lua")
end)

sh:test("a waived finding is a result as it was, suppressed in the source for the reason given", function()
  local result = with_code(results_of("waived.lua"), "grit-step")
  same(result.level, "error")
  lacks(result.message.text, "waived")
  local suppression = result.suppressions[1]
  same(#result.suppressions, 1)
  same(suppression.kind, "inSource")
  same(suppression.justification, "the mock-up showed no scratch")
  same(suppression.properties.by, "A. Foreman")
  same(suppression.location.physicalLocation.region.startLine, 2)
  same(result.properties, nil)
end)

sh:test("a rule of a regulation is acknowledged and never suppressed", function()
  local result = with_code(results_of("acknowledged.lua"), "slip-read")
  same(result.level, "warning")
  same(result.suppressions, nil)
  local told = result.properties.acknowledged
  same(told.reason, "the owner reads it")
  same(told.location.physicalLocation.region.startLine, 3)
end)

sh:test("file names are relative and encoded", function()
  local place = results_of("'a b/broken.lua'")[1].locations[1].physicalLocation.artifactLocation
  same(place.uri, "a%20b/broken.lua")
  same(place.uriBaseId, "START")
end)

sh:test("columns count code points, the end is exclusive", function()
  local region = with_code(results_of("wide.lua"), "name").locations[1].physicalLocation.region
  same(("%d:%d-%d:%d"):format(region.startLine, region.startColumn, region.endLine, region.endColumn), "1:32-1:35")
end)

sh:test("labels are related locations with their words", function()
  local related = with_code(results_of("step.lua"), "grit-step").relatedLocations
  assert(#related > 0)
  same(related[1].message.text, "the abrasive before it")
  same(related[1].physicalLocation.artifactLocation.uri, "step.lua")
end)

sh:test("a fix is a replacement that says whether it is safe", function()
  local fix = with_code(results_of("'a b/broken.lua'"), "syntax").fixes[1]
  local change = fix.artifactChanges[1].replacements[1]
  same(change.insertedContent.text, ",")
  same(change.deletedRegion.startColumn, change.deletedRegion.endColumn)
  same(fix.properties.safe, true)
end)

sh:test("every result names a rule that says what it stands for", function()
  local run = log_of("'a b/broken.lua' step.lua words.lua").runs[1]
  local rules = run.tool.driver.rules
  for _, result in ipairs(run.results) do
    local rule = rules[result.ruleIndex + 1]
    same(rule.id, result.ruleId)
    assert(#rule.shortDescription.text > 0 and #rule.help.text > 0)
    shell.holds(rule.fullDescription.text, "\nBasis: ")
    same(rule.helpUri, nil)
  end
end)

sh:test("a rule's usual level is that of its findings, unless one says otherwise", function()
  local seen = {}
  local log = log_of "step.lua waived.lua acknowledged.lua words.lua wide.lua"
  for _, rule in ipairs(log.runs[1].tool.driver.rules) do
    seen[rule.id] = rule.defaultConfiguration.level
  end
  same(seen["grit-step"], "error")
  same(seen["slip-read"], "warning")
  same(seen.choice, "error")
end)

sh:test("a rule of the shop says what it stands for, and at which level", function()
  sh:write("shop.lua", [[
return recipe "shop" {
  rules = {
    rule "two-coats" { scope = "step", says = "guards go on twice", basis = "house rule", level = "error",
      check = function(step, report) if step.word == "hone" then report { message = "none" } end end },
    rule "grit-step" { level = "note", basis = "house rule" },
  },
  hone "30" { grit = 30, bond = "resin", passes = 4 },
  hone "200" { grit = 200, bond = "resin", passes = 4 },
}
]])
  local seen = {}
  for _, rule in ipairs(log_of("shop.lua").runs[1].tool.driver.rules) do seen[rule.id] = rule end
  same(seen["two-coats"].shortDescription.text, "guards go on twice")
  same(seen["two-coats"].fullDescription.text, "guards go on twice\nBasis: house rule")
  same(seen["two-coats"].defaultConfiguration.level, "error")
  same(seen["grit-step"].defaultConfiguration.level, "note")
  assert(seen["grit-step"].help.text:find("This breaks it", 1, true))
end)

local function mark_of(result) return result.partialFingerprints["findingText/v2"] end

local function prints(text)
  sh:write("moved.lua", text)
  local list = {}
  for i, result in ipairs(results_of("moved.lua")) do list[i] = mark_of(result) end
  return table.concat(list, " ")
end

sh:test("a fingerprint outlives a shift of lines", function()
  same(prints("\n\n-- more\n" .. logs.STEP), prints(logs.STEP))
end)

sh:test("and of the file, and a waiver", function()
  local function of(file) return mark_of(with_code(results_of(file), "grit-step")) end
  sh:write("elsewhere/other.lua", logs.STEP)
  same(of("elsewhere/other.lua"), of("step.lua"))
  same(of("waived.lua"), of("step.lua"))
  local both = results_of("elsewhere/other.lua step.lua")
  same(#both, 2 * #results_of("step.lua"))
  for i = 1, #both / 2 do same(mark_of(both[i]), mark_of(both[#both / 2 + i])) end
end)

sh:test("two findings alike have two fingerprints", function()
  local twice = logs.STEP:gsub("}\n$", '  hone "b" { grit = 30, bond = "resin", passes = 4 },\n'
    .. '  hone "c" { grit = 200, bond = "resin", passes = 4 },\n}\n')
  local seen = {}
  for print in prints(twice):gmatch("%S+") do
    assert(not seen[print], "twice: " .. print)
    seen[print] = true
  end
end)

sh:test("another text at the same place has another fingerprint", function()
  assert(prints(logs.STEP) ~= prints((logs.STEP:gsub("30", "40"))))
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

sh:test("the engine's own findings have the level that the log says they usually have", function()
  local codes, compared = dofile "stdlib/core/codes.lua", 0
  for level, code in shell.read_all("cat tests/language/*.cases"):gmatch("%-%-%^ (%l+)%[([%l%d-]+)%]") do
    if codes.says[code] then
      same(level, codes.warnings[code] and "warning" or "error", code)
      compared = compared + 1
    end
  end
  assert(compared > 100)
end)

sh:finish()
