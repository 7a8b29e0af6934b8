-- world.lua BUILD - the program against the world: bad files, full disks, readers that go away, closed streams.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "world")
local same, holds, lacks = shell.same, shell.holds, shell.lacks

local SOUND = 'return recipe "r" {\n  hone "100" { grit = 100, bond = "resin", passes = 6 },\n}\n'
sh:write("sound.lua", SOUND)

-- That a run may take at most; generous, since the machine may be under load.
local SECONDS = 20

local function run(arguments) return sh:sh(("timeout %d %s %s"):format(SECONDS, shell.quote(sh.gritwork), arguments)) end

local function utf16(text) return "\xff\xfe" .. text:gsub(".", "%0\0") end

-- What stands in a file: its name, its bytes, and what is said (nothing: it is sound).
local TEXTS = {
  { "a byte order mark", "\xef\xbb\xbf" .. SOUND },
  { "line ends of another system", (SOUND:gsub("\n", "\r\n")) },
  { "line ends of an old system", (SOUND:gsub("\n", "\r")) },
  { "a first line for a shell", "#!/usr/bin/env gritwork\n" .. SOUND },
  { "UTF-16", utf16(SOUND), "the file is UTF-16" },
  { "UTF-16 without a mark", (utf16(SOUND):sub(3)), "NUL byte" },
  { "a NUL", 'return recipe "r\0" {}', "NUL byte" },
  { "bytes that are not UTF-8", 'return recipe "r\xff\xfe" {}', "0xFF" },
  { "a program", "\x7fELF\1\1\1\0\0", "NUL byte" },
  { "bytecode", "\x1bLua\x54\0\x19\x93", "syntax" },
  { "curly quotes", "return recipe “r” {}", "curly quote" },
  { "an unresolved merge", "<<<<<<< ours\n" .. SOUND .. "=======\n" .. SOUND .. ">>>>>>> theirs\n", "merge conflict" },
  { "nothing", "", "returns nothing" },
  { "blanks", " \n\t\n", "returns nothing" },
  { "a text without its end", 'return recipe "r', "is not closed" },
  { "a long text without its end", "return recipe [==[r]=]", "never closed" },
  { "a long remark without its end", "--[[ return", "never closed" },
  { "a table without its end", 'return recipe "r" {', "is not closed" },
  { "a call without its end", "return between(1, ", "syntax" },
  { "a value without its end", "return recipe \"r\" { a = ", "value is expected" },
  { "an escape without its end", 'return "\\x', "is not closed" },
  { "a number without its end", "return 0x", "is not a number" },
  { "a function without its end", "return function() if a then", "syntax" },
  { "a line of 900 kB", 'return "' .. ("x"):rep(900000) .. '"', "not a document" },
  { "a line of 15 MB", "--" .. ("x"):rep(15000000), "larger than 1 MiB" },
}

for _, case in ipairs(TEXTS) do
  sh:test(case[1] .. " is met with a clear word", function()
    sh:write("a.lua", case[2])
    local text, status = run("validate --short a.lua")
    same(status, case[3] and 1 or 0, text:sub(1, 500))
    if case[3] then holds(text, case[3]) else same(text, "") end
    assert(#text < 2000, "too many words")
  end)
end

-- A piece that opens, repeated, and what may close it. All are refused at one place, soon.
local DEEP = { { "{", "}" }, { "(", ")" }, { "not " }, { "-(", ")" }, { "between(" }, { "function() return " }, { "if a then " },
               { "a.b(", ")" }, { "[" }, { "2^" }, { "a={" }, { "recipe 'r' {", "}" } }

for _, pair in ipairs(DEEP) do
  sh:test(("a hundred thousand `%s` deep"):format(pair[1]), function()
    sh:write("a.lua", "return " .. pair[1]:rep(100000) .. "1" .. (pair[2] or ""):rep(100000))
    local text, status = run("validate --short a.lua")
    same(status, 1)
    holds(text, "error[syntax]")
    assert(#text < 4000, "too many words")
  end)
end

sh:test("a line of 50 MB is refused before it is read", function()
  sh:sh("head -c 50000000 /dev/zero | tr '\\0' x > long.lua")
  local text, status = run("validate long.lua")
  same(status, 3)
  holds(text, "too large")
  text, status = run("validate - < long.lua")
  same(status, 3)
  holds(text, "too large")
  sh:sh("rm long.lua")
end)

-- What is named in the place of a file: how it is made, its name, what is said.
local NO_FILES = {
  { "a folder", "mkdir -p folder", "folder", "not a regular file" },
  { "a pipe", "mkfifo pipe", "pipe", "not a regular file" },
  { "a device", "true", "/dev/zero", "not a regular file" },
  { "nothing at all", "true", "''", "no such file" },
  { "no file", "true", "none.lua", "no such file" },
  { "a file in a file", "true", "sound.lua/a.lua", "not a folder" },
  { "a link to nothing", "ln -s none.lua nowhere", "nowhere", "no such file" },
  { "a link to itself", "ln -s ring ring", "ring", "symbolic link" },
  { "a folder on standard input", "true", "- < folder", "directory" },
  { "a closed standard input", "true", "- <&-", "Bad file descriptor" },
}

for _, case in ipairs(NO_FILES) do
  sh:test(case[1] .. " is no file", function()
    sh:sh(case[2])
    local text, status = run("validate " .. case[3])
    same(status, 3, text)
    holds(text, "cannot read")
    holds(text:lower(), case[4]:lower())
  end)
end

sh:test("a file that may not be read is denied", function()
  if (sh:sh("id -u")):match("%d+") == "0" then return end -- root may read everything
  sh:sh("cp sound.lua shut.lua && chmod 0 shut.lua")
  local text, status = run("validate shut.lua")
  same(status, 3)
  holds(text, "permission denied")
end)

sh:test("a hyphen is standard input", function()
  same((run("validate - < sound.lua")), "-: nothing found\n")
end)

---- what goes out

-- Anything that prints: what is written to a device that is full is lost, and that is said.
for _, arguments in ipairs { "validate --json sound.lua", "words", "words --manual", "help", "help cost" } do
  sh:test(("gritwork %s into a full disk is an error"):format(arguments), function()
    local _, status = run(arguments .. " > /dev/full")
    same(status, 3)
  end)
  sh:test(("gritwork %s into a closed stream is an error"):format(arguments), function()
    local _, status = run(arguments .. " >&-")
    same(status, 3)
  end)
  sh:test(("gritwork %s for a reader that goes away is none"):format(arguments), function()
    local _, status = sh:sh(("bash -c '%s %s | true; exit ${PIPESTATUS[0]}'"):format(sh.gritwork, arguments))
    same(status, 0)
  end)
end

sh:test("what is printed on a full disk says why", function()
  holds((run("words 2>&1 >/dev/full")), "gritwork: cannot write the output: No space left on device\n")
end)

-- Where `new` is to write, and what is said.
local NO_FOLDERS = {
  { "a file", "--out=sound.lua", 3 },
  { "a folder in a file", "--out=sound.lua/shop", 3 },
  { "a device", "--out=/dev/null", 3 },
  { "no name", "--out=", 2 },
  { "a folder of the kernel", "--out=/proc/gritwork", 3 },
}

for _, case in ipairs(NO_FOLDERS) do
  sh:test("files cannot be written into " .. case[1], function()
    local text, status = run("new " .. case[2])
    same(status, case[3], text)
    lacks(text, "Now:")
    assert(select(2, text:gsub("\n", "")) == 1, "one line, not\n" .. text)
  end)
end

sh:test("a folder that may not be written is left alone", function()
  if (sh:sh("id -u")):match("%d+") == "0" then return end
  sh:sh("mkdir -p shut && chmod 555 shut")
  local text, status = run("new --out=shut")
  same(status, 3)
  holds(text, "permission denied")
end)

-- A build for coverage writes files of its own when it ends, which the limit would hit too: it is given nowhere to.
local NO_COVERAGE = "GCOV_PREFIX=/dev/null GCOV_ERROR_FILE=/dev/null"

-- In blocks of 512 bytes or 1024, whichever the shell counts in.
for _, blocks in ipairs { 0, 1 } do
  sh:test(("a disk with room for %d blocks keeps no part of a file"):format(blocks), function()
    local new = ("%s %s new --out=full"):format(NO_COVERAGE, shell.quote(sh.gritwork))
    local text, status = sh:sh(("rm -rf full; ulimit -f %d; %s"):format(blocks, new))
    same(status, 3)
    holds(text, "the disk is full, or a limit")
    lacks(text, "Now:")
    same((sh:sh("ls -A full 2>/dev/null; ls -A | grep part")), "")
  end)
end

sh:test("runs at one time into one folder leave whole files", function()
  local new = shell.quote(sh.gritwork) .. " new --out=both >/dev/null 2>&1 &"
  sh:sh("rm -rf both; " .. new:rep(8) .. " wait")
  same((run("validate both/first_job.lua")), "both/first_job.lua: nothing found\n")
  same((sh:sh("ls -A both")), "first_job.lua\nhouse_method.lua\nhouse_prices.lua\n")
end)

sh:finish()
