--- Every command with every form of its output, as `gritwork help` lists them: what is new is tried without a line
-- here, unless it needs a value, which is then asked for.
local calls = {}

-- What an option that needs a value is tried with; false where it is tried in another way, with what it needs.
local VALUES = { effort = false, out = false, root = ".", colour = "always", width = "120", seconds = "60", stdlib = false,
  with = "'polish passes=7'", over = "'polish passes=4..6:2'", ["break-even"] = "6000 --over='polish passes=4..6:1'",
  alternate = "none", trials = "100", threads = "2", job = "first_job.lua", area = "'main floor' --job=first_job.lua" }

-- Calls besides those that a command's usage gives.
local EXTRA = { why = { "first_job.lua price" }, test = { "tests.lua" }, words = { "hone", "grit-step" },
  validate = { "mistakes.lua", "missing.lua", "--assumptions first_job.lua" }, risk = { "--trials=100 uncertain.lua" },
  cost = { "--with='polish passes=7' uncertain.lua" } }

-- A method with parameters, and a job with figures that are not certain, of what `gritwork new` writes.
local function write_files(sh)
  sh:run("new --out=shop")
  sh:sh("cp shop/*.lua .")
  local method, changed = sh:read("house_method.lua"):gsub("passes = 5", 'passes = param("polish passes", 5, between(3, 9))', 1)
  assert(changed == 1, "the method that `gritwork new` writes has no step of 5 passes")
  sh:write("house_method.lua", method)
  sh:write("uncertain.lua", (sh:read("first_job.lua"):gsub('width = "28 in"',
    'width = "28 in", travel = about("8 ft/min", "12 ft/min", "16 ft/min")')))
  sh:write("tests.lua", 'return test "t" { of = recipe "r" { hone "a" { grit = 200 } }, finds = { "missing" } }\n')
  local mistakes = assert(io.open("recipes/mistakes.lua"))
  sh:write("mistakes.lua", mistakes:read("a"))
  mistakes:close()
end

local function commands(sh)
  local list = {}
  for name in (sh:run("help")):gmatch("\n  gritwork (%l+)") do list[#list + 1] = name end
  return list
end

-- The options of a command, each with what it is tried with.
local function forms_of(help)
  local forms = {}
  for name, value in help:gmatch("\n  %-%-([%l-]+)(=?)") do
    local given = VALUES[name]
    assert(value == "" or given ~= nil, "tests/calls.lua has no value to try --" .. name .. " with")
    if value == "" then forms[#forms + 1] = "--" .. name
    elseif given then forms[#forms + 1] = ("--%s=%s"):format(name, given) end
  end
  return forms
end

local function calls_of(sh, name, list)
  local help = sh:run("help " .. name)
  local usage = help:match("^gritwork %l+ ([^\n]*)")
  local effort = help:find("--effort", 1, true) and " --effort=1" or ""
  local files = usage:gsub("%[.-%]", ""):gsub("%-%-out=DIR", "--out=OUT"):gsub("JOB", "first_job.lua")
    :gsub("FILE", "first_job.lua"):gsub("%.%.%.", "")
  list[#list + 1] = name .. effort .. " " .. files
  for _, form in ipairs(forms_of(help)) do list[#list + 1] = ("%s%s %s %s"):format(name, effort, form, files) end
  for _, extra in ipairs(EXTRA[name] or {}) do list[#list + 1] = name .. effort .. " " .. extra end
end

--- Writes the files that the calls need into the folder of a test (tests/shell.lua), and lists the calls, each as
-- the arguments of the program. `OUT` is the folder that those write into which write.
function calls.list(sh)
  local list = {}
  write_files(sh)
  for _, name in ipairs(commands(sh)) do calls_of(sh, name, list) end
  return list
end

return calls
