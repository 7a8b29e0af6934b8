--- Runs the language tests: every case file of this folder, through one `gritwork validate --json`.
--
--   lua5.4 tests/language/run.lua BUILD [--write] [TOPIC...]
--
-- The last line is "language: N passed, N failed". `--write` puts what is found into the case files instead of
-- comparing: read every line of the difference before it is kept.
local here = arg[0]:match("^(.*)/") or "."
package.path = ("%s/?.lua;%s/../?.lua"):format(here, here)
local cases = require "cases"
local files = require "files"
local json = require "json"

local TOPICS = { "words", "values", "fields", "syntax", "tailoring", "modules", "jobs", "prices", "rules", "plans",
  "waivers", "trade" }

local function options()
  local chosen, write = {}, false
  for i = 2, #arg do
    if arg[i] == "--write" then write = true else chosen[#chosen + 1] = arg[i] end
  end
  return arg[1], #chosen > 0 and chosen or TOPICS, write
end

local function lay_out(root, all)
  local taken, paths = {}, {}
  os.execute(("rm -rf '%s' && mkdir -p '%s'"):format(root, root))
  for n, case in ipairs(all) do
    case.files[1].name = nil
    for _, file in ipairs(case.files) do
      local name = file.name or ("%s_%03d.lua"):format(case.topic, n)
      assert(not taken[name], "two cases have a file " .. name)
      taken[name] = true
      file.path = root .. "/" .. name
      files.write(file.path, cases.script(case, file))
    end
    paths[n] = "'" .. case.files[1].path .. "'"
  end
  return paths
end

local function validate(build, root, paths)
  local pipe = assert(io.popen(("'%s/gritwork' validate --json --seconds=300 --root='%s' %s"):format(build, root,
    table.concat(paths, " "))))
  local text = pipe:read("a")
  pipe:close()
  return json.read(text).files
end

local function text_of(finding)
  local text = finding.message
  if finding.help then text = text .. " (" .. finding.help .. ")" end
  return (text:gsub("%s+", " "))
end

-- Columns "4-9", or "4-2:9" where the place ends two lines further down; "0" where there is no place.
local function place_of(finding)
  if not finding.line then return "0" end
  local down = finding.end_line - finding.line
  return ("%d-%s%d"):format(finding.column, down > 0 and down .. ":" or "", finding.end_column)
end

-- The findings of a case, sorted to its files, as expectations would say them.
local function found_in(case, findings)
  local found = {}
  for _, file in ipairs(case.files) do found[file] = {} end
  for _, finding in ipairs(findings) do
    local home = case.files[1]
    for _, file in ipairs(case.files) do
      if finding.file and finding.file:sub(-#file.path) == file.path or finding.file == file.name then
        home = file end
    end
    local line = finding.line and math.max(finding.line - home.above, 0) or 0
    table.insert(found[home], { line = math.min(line, #home.lines), level = finding.level, code = finding.code,
      place = place_of(finding), text = text_of(finding) })
  end
  return found
end

local function key(want) return ("%d %s[%s] %s: %s"):format(
  want.line, want.level, want.code, want.place, want.text) end

local function compare(case, found)
  local wrong = {}
  for _, file in ipairs(case.files) do
    local open = {}
    for _, want in ipairs(found[file]) do open[key(want)] = (open[key(want)] or 0) + 1 end
    for _, want in ipairs(file.wants) do
      local k = key(want)
      if (open[k] or 0) > 0 then open[k] = open[k] - 1
      else wrong[#wrong + 1] = "  missing     line " .. k end
    end
    for _, got in ipairs(found[file]) do
      if open[key(got)] > 0 then
        wrong[#wrong + 1] = "  unexpected  line " .. key(got)
        open[key(got)] = open[key(got)] - 1
      end
    end
  end
  return wrong
end

-- The two examples of every rule, as cases: the bad one gives that rule's finding alone, the good one none.
local function rule_cases(build)
  local pipe = assert(io.popen(("'%s/gritwork' words --examples"):format(build)))
  local list = {}
  for header, text in (pipe:read("a") .. "==== "):gmatch("(%l[%w-]* %l+)\n(.-)%f[\0=]==== ?") do
    local rule, which = header:match("^(%S+) (%S+)$")
    list[#list + 1] = { topic = "rule", title = header, rule = rule, which = which, text = text }
  end
  pipe:close()
  return list
end

local function judge_example(case, findings)
  local wrong, hit = {}, false
  for _, finding in ipairs(findings) do
    if finding.code == case.rule and case.which == "bad" then hit = true
    else wrong[#wrong + 1] = ("  unexpected  %s[%s]: %s"):format(finding.level, finding.code, finding.message) end
  end
  if case.which == "bad" and not hit then wrong[#wrong + 1] = "  missing     its own finding" end
  return wrong
end

local function run_examples(build, root)
  local list, paths = rule_cases(build), {}
  for n, case in ipairs(list) do
    local path = ("%s/rule_%03d.lua"):format(root, n)
    files.write(path, case.text)
    paths[n] = "'" .. path .. "'"
  end
  local results, failed = validate(build, root, paths), 0
  for n, case in ipairs(list) do
    local wrong = judge_example(case, results[n].findings)
    if #wrong > 0 then
      failed = failed + 1
      print(("-- rule %s (%s)\n%s"):format(case.title, paths[n], table.concat(wrong, "\n")))
    end
  end
  return #list - failed, failed
end

local function run()
  local build, topics, write = options()
  local all, books = {}, {}
  for _, topic in ipairs(topics) do
    local path = ("%s/%s.cases"):format(here, topic)
    local text = files.read(path)
    if text then
      local list, comment = cases.read(topic, text)
      books[#books + 1] = { path = path, list = list, comment = comment }
      for _, case in ipairs(list) do all[#all + 1] = case end
    end
  end
  local root = build .. "/language"
  local results = validate(build, root, lay_out(root, all))
  local passed, failed = 0, 0
  for n, case in ipairs(all) do
    local found = found_in(case, results[n].findings)
    local wrong = write and {} or compare(case, found)
    if #wrong == 0 then passed = passed + 1
    else
      failed = failed + 1
      print(("-- %s:%d: %s\n%s"):format(case.topic, case.line, case.title, table.concat(wrong, "\n")))
    end
    for _, file in ipairs(case.files) do if write then file.wants = found[file] end end
  end
  for _, book in ipairs(books) do if write then files.write(book.path, cases.write(book.list, book.comment)) end end
  if #topics == #TOPICS and not write then
    local fine, bad = run_examples(build, root)
    passed, failed = passed + fine, failed + bad
  end
  if failed > 0 then
    print(("if the new words are right: lua5.4 %s %s --write, then read the difference line by line"):format(
      arg[0], build))
  end
  print(("language: %d passed, %d failed"):format(passed, failed))
  os.exit(failed == 0)
end

run()
