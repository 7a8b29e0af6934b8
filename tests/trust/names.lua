-- names.lua BUILD - names that hold what steers a terminal, turns text round or begins a formula, in every command
-- and form.
--
-- Whatever prints them prints lines of visible characters, in UTF-8; cells of a spreadsheet begin no formula.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local calls = require "calls"
local shell = require "shell"

local sh = shell.new(build, "names")

-- As a script would write it: a formula, escape codes, marks that turn text, line ends, markup, bytes that are no
-- UTF-8.
local EVIL = [[=1+1 \27[31m\27]0;x\7\u{202e}\u{2066}\r\n<script>alert(1)</script>&\"',;END:VEVENT\x7f\u{9b}\xff\xed\xa0\x80]]

local function spoil(name, ...)
  local text = sh:read(name)
  for _, word in ipairs { ... } do
    local spoilt, count = text:gsub(word .. ' *"([^"]*)"', function(old) return ('%s "%s %s"'):format(word, EVIL, old) end)
    assert(count > 0, word)
    text = spoilt
  end
  sh:write(name, text)
end

local list = calls.list(sh)
spoil("first_job.lua", "job", "area")
spoil("house_method.lua", "recipe", "hone", "clean")

-- The first thing in a text that nobody should be shown; nil if there is none.
local function hidden(text)
  if not utf8.len(text) then return "bytes that are no UTF-8" end
  for _, code in utf8.codes(text) do
    local fine = code == 10 or code == 13 or (code >= 32 and code < 127) or code >= 160
    if not fine or (code >= 0x202a and code <= 0x202e) or (code >= 0x2066 and code <= 0x2069) then
      return ("the character %X"):format(code)
    end
  end
  return text:gsub("\r\n", "\n"):match("\r") and "a carriage return"
end

for _, call in ipairs(list) do
  if not call:find("--colour=always", 1, true) then
    sh:test("gritwork " .. call, function()
      local text, status = sh:sh(("rm -rf OUT; %s %s"):format(shell.quote(sh.gritwork), call))
      assert(status == 0 or status == 1 or status == 3, text)
      local what = hidden(text)
      assert(not what, ("%s is shown:\n%s"):format(what, text:sub(1, 1500)))
    end)
  end
end

sh:test("a bid's files hold nothing hidden, no markup of a name, and no formula of one", function()
  sh:run("bid --effort=1 --out=OUT first_job.lua")
  for _, name in ipairs { "proposal.html", "package.html", "crew_sheet.html", "purchase_list.csv", "schedule.ics", "bid.json" } do
    local text = sh:read("OUT/" .. name)
    assert(not hidden(text), name .. ": " .. tostring(hidden(text)))
    if name:find("html$") then shell.lacks(text, "<script>alert") end
    if name:find("csv$") then shell.lacks(text, "\n=") end
    if name:find("ics$") then shell.lacks(text, "\nEND:VEVENT\\") end
  end
end)

sh:finish()
