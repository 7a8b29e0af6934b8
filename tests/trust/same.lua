-- same.lua BUILD - the same input gives the same bytes: whatever the environment, the folder, the cores, the addresses.
--
-- Every command of `gritwork help` is run, with every option that changes what it prints; a command or an option that
-- is new is in it without a line here.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "same")
local same = shell.same
local gritwork = shell.quote(sh.gritwork)

-- What a run may not depend on: how it is called, `%s` being the call. Several at a time, since there are many calls.
local OTHERWISE = {
  { "a second time, with addresses that stay, no environment, few descriptors and one core",
    "ulimit -n 20; env -i setarch -R taskset -c 0 nice -n 1 %s 7</dev/null 8</dev/null" },
  { "another locale, time zone, umask, home, and settings of colours, widths and a Lua of its own",
    "umask 077; LC_ALL=C.UTF-8 LANG=de_DE.UTF-8 LANGUAGE=de TZ=Pacific/Kiritimati HOME=/nonexistent USER=nobody NO_COLOR=1 "
    .. "TERM=xterm-256color COLORTERM=truecolor COLUMNS=33 LUA_PATH=/x LUA_CPATH=/x LUA_INIT='os.exit(9)' %s" },
}

-- Calls besides those that a command's usage gives.
local EXTRA = { why = { "first_job.lua price" }, test = { "tests.lua" }, words = { "hone", "grit-step" },
  validate = { "mistakes.lua", "missing.lua", "--assumptions first_job.lua" } }
-- Options that print in another form, or more.
local FORMS = { "--json", "--sarif", "--short", "--bars", "--assumptions", "--meta", "--manual", "--examples", "--diff", "--width=120",
  "--colour=always" }

sh:run("new --out=shop")
sh:sh("cp shop/*.lua .")
local mistakes = assert(io.open("recipes/mistakes.lua"))
sh:write("mistakes.lua", mistakes:read("a"))
mistakes:close()
sh:write("tests.lua", 'return test "t" { of = recipe "r" { hone "a" { grit = 200 } }, finds = { "missing" } }\n')

local function commands()
  local list = {}
  for name in (sh:run("help")):gmatch("\n  gritwork (%l+)") do list[#list + 1] = name end
  return list
end

-- The calls to try of one command, without the program's name.
local function calls_of(name)
  local help, list = sh:run("help " .. name), {}
  local usage = help:match("^gritwork %l+ ([^\n]*)")
  local effort = help:find("--effort", 1, true) and " --effort=1" or ""
  local files = usage:gsub("%[.-%]", ""):gsub("%-%-out=DIR", "--out=OUT"):gsub("JOB", "first_job.lua"):gsub("FILE", "first_job.lua")
    :gsub("%.%.%.", "")
  list[1] = name .. effort .. " " .. files
  for _, form in ipairs(FORMS) do
    if help:find("\n  " .. form:match("^[^=]*"), 1, true) then list[#list + 1] = name .. effort .. " " .. form .. " " .. files end
  end
  for _, extra in ipairs(EXTRA[name] or {}) do list[#list + 1] = name .. effort .. " " .. extra end
  return list
end

-- All that a call leaves: what it printed, its status, and the files it wrote, each with its bytes.
local function outcome(call, how)
  local command = how:format(gritwork .. " " .. call:gsub("%%", "%%%%"))
  local text, status = sh:sh(("rm -rf OUT; { %s; }; s=$?; [ -d OUT ] && (cd OUT && sha256sum *); exit $s"):format(command))
  return ("%s\nstatus %d"):format(text, status)
end

for _, name in ipairs(commands()) do
  for _, call in ipairs(calls_of(name)) do
    sh:test("gritwork " .. call, function()
      local usual = outcome(call, "%s")
      assert(usual:find("status [013]$"), usual)
      for _, other in ipairs(OTHERWISE) do same(outcome(call, other[2]), usual, other[1]) end
    end)
  end
end

sh:test("another folder, and the same name of the file", function()
  sh:sh("mkdir -p elsewhere/deep && cp *.lua elsewhere/deep")
  for _, call in ipairs { "schedule --effort=1 --json first_job.lua", "cost --effort=1 first_job.lua" } do
    same(sh:sh("cd elsewhere/deep && " .. gritwork .. " " .. call), (sh:run(call)))
  end
end)

sh:finish()
