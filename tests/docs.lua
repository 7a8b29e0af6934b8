-- docs.lua BUILD - the examples in the documents are run, and their output compared.
--
-- In a ```console block, a line `$ gritwork ...` is run and the lines after it are what it must print; a line `...`
-- stands for any number of lines. A ```lua block after <!-- file: NAME --> is written to NAME first. Everything
-- runs in a folder of its own that begins as a copy of recipes/.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "docs")

local function lines_of(text)
  local lines = {}
  for line in text:gmatch("([^\n]*)\n?") do lines[#lines + 1] = line end
  while lines[#lines] == "" do lines[#lines] = nil end
  return lines
end

-- Does `got` from line i on match `want` from line k on?
local function matches(want, k, got, i)
  if k > #want then return i > #got end
  if want[k] == "..." then
    for from = i, #got + 1 do if matches(want, k + 1, got, from) then return true end end
    return false
  end
  return got[i] == want[k] and matches(want, k + 1, got, i + 1)
end

local function check(file, line, command, want)
  while want[#want] == "" do want[#want] = nil end
  sh:test(("%s:%d: $ %s"):format(file, line, command), function()
    local text = sh:sh((command:gsub("^gritwork", (shell.quote(sh.gritwork):gsub("%%", "%%%%")))))
    assert(matches(want, 1, lines_of(text), 1), "it printed:\n" .. text .. "--")
  end)
end

local function each_block(file)
  local number, name, kind, body, begins = 0, nil, nil, nil, 0
  for line in io.lines(file) do
    number = number + 1
    if not kind then
      name = line:match("^<!%-%- file: (%S+) %-%->$") or (line ~= "" and not line:match("^```") and nil) or name
      kind = line:match("^```(%w+)$")
      body, begins = {}, number
    elseif line == "```" then
      coroutine.yield(kind, body, begins, name)
      kind, name = nil, nil
    else
      body[#body + 1] = line
    end
  end
end

local function console(file, body, begins)
  local command, at, want
  for i, line in ipairs(body) do
    local next_command = line:match("^%$ (.*)$")
    if next_command then
      if command then check(file, at, command, want) end
      command, at, want = next_command, begins + i, {}
    elseif want then
      want[#want + 1] = line
    end
  end
  if command then check(file, at, command, want) end
end

sh:copy "recipes"
for file in shell.read_all("ls README.md docs/*.md"):gmatch("[^\n]+") do
  for kind, body, begins, name in coroutine.wrap(function() each_block(file) end) do
    if kind == "console" then console(file, body, begins)
    elseif kind == "lua" and name then sh:write(name, table.concat(body, "\n") .. "\n") end
  end
end
sh:finish()
