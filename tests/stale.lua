-- stale.lua BUILD - pages that a command prints are kept in docs/; this says which of them are stale, and with
-- `lua5.4 tests/stale.lua BUILD write` writes them anew.
local build, write = arg[1], arg[2] == "write"
local pages = {
  { "docs/words.md", build .. "/gritwork words --manual" },
}

local function output(command)
  local pipe = io.popen(command)
  local text = pipe:read("a")
  pipe:close()
  return text
end

local function content(name)
  local file = io.open(name, "rb")
  local text = file and file:read("a") or ""
  if file then file:close() end
  return text
end

local passed, failed = 0, 0
for _, page in ipairs(pages) do
  local name, text = page[1], output(page[2])
  if write then
    local file = assert(io.open(name, "wb"))
    file:write(text)
    file:close()
  elseif content(name) == text and text ~= "" then passed = passed + 1
  else
    failed = failed + 1
    print(("%s is stale: run `make pages`"):format(name))
  end
end
print(("stale: %d passed, %d failed"):format(passed, failed))
os.exit(failed == 0)
