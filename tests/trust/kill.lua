-- kill.lua BUILD [KILLS] - `bid` killed at any moment leaves the package that was there, whole, or the new one,
-- whole.
--
-- Six kills, or as many as are asked for (`make kills` does 250).
local build, kills = arg[1], tonumber(arg[2] or 6)
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "kill")
local same = shell.same

-- Packages of two jobs, so that one is never taken for the other.
sh:run("new --out=shop")
local job = sh:read("shop/first_job.lua")
sh:write("shop/other_job.lua", (job:gsub("50 ft", "60 ft")))

local function bid(name) return ("%s bid --effort=1 --out=package shop/%s.lua"):format(shell.quote(sh.gritwork), name) end

local function package() return (sh:sh("cd package && for f in $(ls -A); do sha256sum $f; done")) end

local function seconds_of(command)
  return tonumber((sh:sh(("s=$(date +%%s%%N); %s >/dev/null 2>&1; e=$(date +%%s%%N); echo $((e - s))"):format(command)))) / 1e9
end

sh:test("the package is whole after each kill", function()
  local whole = {}
  seconds_of(bid "other_job")
  whole[package()] = "other_job"
  local usual = seconds_of(bid "first_job")
  whole[package()] = "first_job"
  math.randomseed(1)
  local found = { first_job = 0, other_job = 0 }
  for i = 1, kills do
    local name = i % 2 == 0 and "first_job" or "other_job"
    sh:sh(("timeout -s KILL %.4f %s >/dev/null 2>&1; true"):format(usual * (0.1 + 1.5 * math.random()), bid(name)))
    local is = whole[package()]
    assert(is, "a mixture after kill " .. i .. ":\n" .. package())
    found[is] = found[is] + 1
  end
  print(("after %d kills: %d times one package, %d times the other"):format(kills, found.first_job, found.other_job))
end)

-- A killed process that waits for its disk is there until that answers.
local function wait_for_the_killed()
  sh:sh([[for left in .package.*.part; do p=${left#.package.}; p=${p%%-*}
    for i in $(seq 3000); do kill -0 $p 2>/dev/null || break; sleep 0.01; done; done]])
end

sh:test("the next run that ends is as if nothing had been", function()
  wait_for_the_killed()
  sh:sh(bid "first_job")
  local once = package()
  sh:sh("rm -rf package; " .. bid "first_job")
  same(package(), once)
  same(sh:sh("ls -A | grep part; true"), "") -- what the killed ones left beside it is gone as well
end)

sh:finish()
