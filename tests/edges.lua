--- Every rule at its edge: a case that breaks it, the same case one notch to the good side, and the first one
-- waived.
--
--   lua5.4 tests/edges.lua BUILD [RULE...]
--
-- language/edges.cases holds scripts in which <<this|that>> reads "this breaks the rule, that just does not"; each
-- number of `that` is close to the one of `this`. A rule without a case is a failure that names the rule.
--
--   ==== wash-dry: twenty minutes
--   clean "wash" { with = "water", dry = "<<19|20>> min" },
--
-- "==== rule (also other): title" lets findings of another rule stand beside the rule's own.
local here = arg[0]:match("^(.*)/") or "."
package.path = here .. "/?.lua;stdlib/?.lua"
local examples = require "core.examples"
local json = require "json"

local WAIVER = 'waive "%s" { reason = "tried on the mock-up", by = "foreman" },\n}'
local CLOSE = 0.12 -- a notch is no larger, or one unit

-- ---- the rules, read without the program: what their checks call is not needed here

local function list_files()
  local pipe, list = assert(io.popen("find stdlib/rules -name '*.lua' | sort")), {}
  for path in pipe:lines() do list[#list + 1] = path end
  pipe:close()
  return list
end

local function read_rules()
  table.insert(package.searchers, 2, function(name)
    return name:find("^native%.") and function() return {} end
  end)
  local list, by_id = {}, {}
  for _, path in ipairs(list_files()) do
    for _, rule in ipairs(dofile(path)) do list[#list + 1], by_id[rule.id] = rule, rule end
  end
  table.sort(list, function(a, b) return a.id < b.id end)
  return list, by_id
end

-- ---- the cases

local function read_file(path)
  local file = assert(io.open(path, "rb"))
  local text = file:read("a")
  file:close()
  return text
end

local function write_file(path, text)
  local file = assert(io.open(path, "wb"))
  file:write(text)
  file:close()
end

local function begin_case(header)
  local id, also, title = header:match("^==== ([%l-]+)%s*(%(also [%l%s,-]+%)): (.+)$")
  if not id then id, title = header:match("^==== ([%l-]+): (.+)$") end
  local allowed = {}
  for code in (also or ""):gmatch("[%l-]+") do allowed[code] = true end
  return { id = assert(id, header), title = title, lines = {}, allowed = allowed }
end

local function read_cases(path)
  local list = {}
  for line in read_file(path):gmatch("([^\n]*)\n") do
    local case = list[#list]
    if line:find("^==== ") then list[#list + 1] = begin_case(line)
    elseif case then case.lines[#case.lines + 1] = line end
  end
  for _, case in ipairs(list) do case.text = table.concat(case.lines, "\n") end
  return list
end

-- The case's text with the first or the second of each <<this|that>>.
local function side(text, which)
  return (text:gsub("<<(.-)|(.-)>>", function(this, that) return which == 1 and this or that end))
end

local function shape(text) return (text:gsub("%d+%.?%d*", "#")) end

local function in_minutes(text)
  return (text:gsub("(%d+):(%d%d)", function(hours, minutes) return ("%d"):format(hours * 60 + minutes) end))
end

local function is_notch(this, that)
  this, that = in_minutes(this), in_minutes(that)
  if shape(this) ~= shape(that) then return true end
  local next_number = that:gmatch("%d+%.?%d*")
  for figure in this:gmatch("%d+%.?%d*") do
    local a, b = tonumber(figure), tonumber(next_number())
    if math.abs(a - b) > math.max(CLOSE * math.max(a, b), 1) then return false end
  end
  return true
end

local function scripts_of(case, rule)
  local bad = examples.script(rule, side(case.text, 1))
  return { bad, examples.script(rule, side(case.text, 2)), (bad:gsub("}%s*$", WAIVER:format(rule.id) .. "\n")) }
end

-- ---- judging

local function own(findings, id)
  local list = {}
  for _, finding in ipairs(findings) do if finding.code == id then list[#list + 1] = finding end end
  return list
end

local function strangers(case, findings, wrong, where)
  for _, finding in ipairs(findings) do
    if finding.code ~= case.id and not case.allowed[finding.code] then
      wrong[#wrong + 1] = ("  %s: %s[%s]: %s"):format(where, finding.level, finding.code, finding.message)
    end
  end
end

local function judge_waived(rule, found, wrong)
  for _, finding in ipairs(found) do
    local acknowledged = finding.level == "warning" and (finding.note or ""):find("^acknowledged: ")
    local waived = finding.level == "note" and finding.message:find("^waived: ")
    if not (rule.law and acknowledged or not rule.law and waived) then
      wrong[#wrong + 1] = ("  waived: still %s: %s"):format(finding.level, finding.message)
    end
  end
  if #found == 0 then wrong[#wrong + 1] = "  waived: no trace of it is left" end
end

local function judge(case, rule, bad, good, waived)
  local wrong = {}
  if not case.text:find("<<.-|.->>") then wrong[1] = "  it has no <<this|that>>" end
  for this, that in case.text:gmatch("<<(.-)|(.-)>>") do
    if not is_notch(this, that) then wrong[#wrong + 1] = ("  from %s to %s is more than a notch"):format(this, that) end
  end
  if #own(bad, rule.id) == 0 then wrong[#wrong + 1] = "  does not fire" end
  for _, finding in ipairs(own(bad, rule.id)) do
    if finding.level == "note" then wrong[#wrong + 1] = "  fires as a note" end
  end
  for _, finding in ipairs(own(good, rule.id)) do
    wrong[#wrong + 1] = ("  the near miss fires: %s"):format(finding.message)
  end
  strangers(case, bad, wrong, "breaks it")
  strangers(case, good, wrong, "near miss")
  strangers(case, waived, wrong, "waived")
  judge_waived(rule, own(waived, rule.id), wrong)
  return wrong
end

-- ---- running

local function validate(build, root, scripts)
  local paths = {}
  os.execute(("rm -rf '%s' && mkdir -p '%s'"):format(root, root))
  for n, script in ipairs(scripts) do
    paths[n] = ("%s/edge_%03d.lua"):format(root, n)
    write_file(paths[n], script)
  end
  local pipe = assert(io.popen(("'%s/gritwork' validate --json --seconds=300 --root='%s' '%s'"):format(build, root,
    table.concat(paths, "' '"))))
  local results = json.read(pipe:read("a")).files
  pipe:close()
  return results, paths
end

local function choose(list)
  if #arg < 2 then return list, false end
  local wanted, chosen = {}, {}
  for i = 2, #arg do wanted[arg[i]] = true end
  for _, case in ipairs(list) do if wanted[case.id] then chosen[#chosen + 1] = case end end
  return chosen, true
end

local rules, by_id = read_rules()
local list, is_part = choose(read_cases(here .. "/language/edges.cases"))
local scripts, passed, failed, covered = {}, 0, 0, {}
for _, case in ipairs(list) do
  assert(by_id[case.id], "no rule is called " .. case.id)
  for _, script in ipairs(scripts_of(case, by_id[case.id])) do scripts[#scripts + 1] = script end
end
local results, paths = validate(arg[1], arg[1] .. "/language/edges", scripts)
for n, case in ipairs(list) do
  local k = 3 * n
  local wrong = judge(case, by_id[case.id], results[k - 2].findings, results[k - 1].findings, results[k].findings)
  covered[case.id] = true
  if #wrong == 0 then passed = passed + 1
  else
    failed = failed + 1
    print(("-- %s: %s (%s)\n%s"):format(case.id, case.title, paths[k - 2], table.concat(wrong, "\n")))
  end
end
for _, rule in ipairs(rules) do
  if not is_part and not covered[rule.id] then
    failed = failed + 1
    print(("-- %s has no case: one that breaks it, one that just does not, one waived"):format(rule.id))
  end
end
print(("edges: %d passed, %d failed"):format(passed, failed))
os.exit(failed == 0)
