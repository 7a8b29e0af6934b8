-- same.lua BUILD - the same input gives the same bytes: whatever the environment, the folder, the cores, the
-- addresses.
--
-- Every command of `gritwork help` is run, with every option that changes what it prints; a command or an option
-- that is new is in it without a line here.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local calls = require "calls"
local shell = require "shell"

local sh = shell.new(build, "same")
local same = shell.same
local gritwork = shell.quote(sh.gritwork)

-- What a run may not depend on: how it is called, `%s` being the call. Several at a time, since there are many
-- calls.
local OTHERWISE = {
  { "a second time, with addresses that stay, no environment, few descriptors and one core",
    "ulimit -n 20; env -i setarch -R taskset -c 0 nice -n 1 %s 7</dev/null 8</dev/null" },
  { "another locale, time zone, umask, home, and settings of colours, widths and a Lua of its own",
    "umask 077; LC_ALL=C.UTF-8 LANG=de_DE.UTF-8 LANGUAGE=de TZ=Pacific/Kiritimati HOME=/nonexistent USER=nobody NO_COLOR=1 "
    .. "TERM=xterm-256color COLORTERM=truecolor COLUMNS=33 LUA_PATH=/x LUA_CPATH=/x LUA_INIT='os.exit(9)' %s" },
}

-- All that a call leaves: what it printed, its status, and the files it wrote, each with its bytes.
local function outcome(call, how)
  local command = how:format(gritwork .. " " .. call:gsub("%%", "%%%%"))
  local text, status = sh:sh(("rm -rf OUT; { %s; }; s=$?; [ -d OUT ] && (cd OUT && sha256sum *); exit $s"):format(command))
  return ("%s\nstatus %d"):format(text, status)
end

for _, call in ipairs(calls.list(sh)) do
  sh:test("gritwork " .. call, function()
    local usual = outcome(call, "%s")
    assert(usual:find("status [013]$"), usual)
    for _, other in ipairs(OTHERWISE) do same(outcome(call, other[2]), usual, other[1]) end
  end)
end

sh:test("another folder, and the same name of the file", function()
  sh:sh("mkdir -p elsewhere/deep && cp *.lua elsewhere/deep")
  for _, call in ipairs { "schedule --effort=1 --json first_job.lua", "cost --effort=1 first_job.lua" } do
    same(sh:sh("cd elsewhere/deep && " .. gritwork .. " " .. call), (sh:run(call)))
  end
end)

sh:finish()
