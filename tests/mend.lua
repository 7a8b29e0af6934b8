-- mend.lua BUILD - what fixes do to the bad examples of the rules: what was found is gone, nothing new is found,
-- and the ends of lines stay what they were.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"
local shell = require "shell"

local sh = shell.new(build, "mend")
local same = shell.same

-- The rules whose bad example comes with a fix: another one is named here when it gets one, so that none is lost.
local MENDED = [[
clean-before colour-time densifier-dwell densifier-flush densifier-short dry-on-wet dust-between dye-dry
exposure-shown finish-read guard-rest hold-finish passes-needed promise-read readings-enough readings-many
repair-cure slip-read slurry-collect slurry-none slurry-soon stain-neutral step-twice survey-window tool-care
wait-first wash-dry wet-washed within-first within-short]]

local function examples()
  local text, list = sh:run("words --examples"), {}
  for rule, script in (text .. "==== "):gmatch("(%l[%w-]*) bad\n(.-)%f[\0=]==== ?") do
    list[#list + 1] = { rule = rule, script = script }
  end
  return list
end

-- The offset of a line and column of a text, counted from 1 in code points.
local function offset_of(text, line, column)
  local at = 1
  for _ = 2, line do at = text:find("\n", at, true) + 1 end
  return utf8.offset(text, column, at)
end

local function apply(text, fix)
  local from, to = offset_of(text, fix.line, fix.column), offset_of(text, fix.end_line, fix.end_column)
  return text:sub(1, from - 1) .. fix.text .. text:sub(to)
end

local function findings_of(name) return json.read((sh:run("validate --json " .. name))).files[1].findings end

local function said(findings)
  local set = {}
  for _, finding in ipairs(findings) do set[finding.code] = (set[finding.code] or 0) + 1 end
  return set
end

-- Mends one finding after another until none has a fix, and complains when a finding comes that was not there.
local function mend(name, script, was)
  for _ = 1, 10 do
    local fix
    for _, finding in ipairs(was) do if finding.fix ~= json.null then fix = fix or finding.fix end end
    if not fix then return script, was end
    script = apply(script, fix)
    sh:write(name, script)
    local now = findings_of(name)
    local before = said(was)
    for code, count in pairs(said(now)) do
      if count > (before[code] or 0) then error(("a fix brought %s:\n%s"):format(code, script), 2) end
    end
    was = now
  end
  error("it never ends:\n" .. script, 2)
end

local LINE_ENDS = { "\n", "\r\n" }

local function test_example(name, rule, script)
  sh:write(name, script)
  local was = findings_of(name)
  for _, finding in ipairs(was) do
    if finding.fix ~= json.null then
      local fixed, left = mend(name, script, was)
      same(said(left)[rule], nil, fixed)
      return fixed
    end
  end
  return nil
end

local mended = {}
for i, example in ipairs(examples()) do
  sh:test("the fix of " .. example.rule .. " mends its bad example", function()
    local line_end = LINE_ENDS[i % 2 + 1] -- half of them with each
    local script = example.script:gsub("\n", line_end)
    local fixed = test_example(example.rule .. ".lua", example.rule, script)
    if not fixed then return end
    mended[#mended + 1] = example.rule
    same(select(2, fixed:gsub("\n", "")), select(2, fixed:gsub(line_end, "")))
  end)
end

sh:test("every rule that had a fix still has one", function()
  same(table.concat(mended, " "), (MENDED:gsub("%s+", " ")))
end)

sh:finish()
