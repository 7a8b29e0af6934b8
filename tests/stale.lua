-- stale.lua BUILD - pages that a command prints are kept in docs/; this says which of them are stale, and with
-- `lua5.4 tests/stale.lua BUILD write` writes them anew.
local build, write = arg[1], arg[2] == "write"
package.path = "tests/?.lua;" .. package.path
local files = require "files"
local shell = require "shell"

local PAGES = { ["docs/words.md"] = "words --manual" }

local sh = shell.new(build, "stale")

for page, command in pairs(PAGES) do
  local text, status = sh:run(command)
  assert(status == 0 and text ~= "", text)
  if write then files.write(page, text) end
  sh:test(page .. " is as it is printed", function()
    assert(files.read(page) == text, "it is stale: run `make pages`")
  end)
end

sh:finish()
