-- press.lua BUILD - gritwork-press, the helper that makes papers and workbooks, given what gritwork would never
-- give it.
--
-- Whatever it is given, it ends soon, by itself, and says by its status whether there is a file.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local shell = require "shell"

local sh = shell.new(build, "press")
local same = shell.same
local press = (shell.read_all("realpath " .. shell.quote(build .. "/gritwork-press")):match("[^\n]+"))

local PAPER = [[
begin	en	letter	normal	A title	A foot	2027-03-01
title	Proposal	first job
price	Price	$6,124.15	with tax
head	Floors
fact	Area	2,000 sqft
table	l30	r20	r50
heads	What	How much	Why
row	hone 200	6 passes	to clear the scratch
note	at the model's word
total	All	12 h	
chart	the first week
tick	2500	Monday
bar	hone 200	100	4000	work	4200	900	wait
step	1	hone	200	resin, wet
caution	Dust holds silica.
hold	measure the gloss
blanks	12
sign	Name	Date
break
text	Letters of many scripts: äß Ω Ж ไทย 漢字 العربية 🙂
item	the last one
]]

local BOOK = [[
book	A bid	2027-03-01
sheet	Bid	portrait	foot & more
columns	10	20	30
repeat	0	1
cell	0	0	title	t	Bid
cell	1	0	number	n	12.5
cell	1	1	money	f	A2*2	25
cell	2	1	price	t	
]]

-- The status of one run; more than 20 seconds is an error like any other.
local function status_of(name, text)
  sh:write("text", text)
  return select(2, sh:sh(("timeout 20 %s %s < text > made 2>/dev/null"):format(shell.quote(press), name)))
end

local function size_of_made() return #sh:read("made") end

sh:test("a paper and a workbook are made", function()
  for name, text in pairs { ["a.pdf"] = PAPER, ["a.xlsx"] = BOOK } do
    same(status_of(name, text), 0, name)
    assert(size_of_made() > 1000, name)
  end
end)

-- Name of the file, what the text is made of, and the status.
local BAD = {
  { "a.pdf", "", 1 }, { "a.pdf", "\n", 1 }, { "a.pdf", "hello\n", 1 }, { "a.pdf", "title\tx\n", 1 },
  { "a.pdf", "begin\n", 0 }, { "a.pdf", PAPER .. "other\tx\n", 1 }, { "a.pdf", PAPER .. ("\t"):rep(300) .. "\n", 1 },
  { "a.pdf", "begin\ten\tletter\tnormal\tT\tF\tno date\ntext\t" .. ("x"):rep(4000) .. "\n", 0 },
  { "a.pdf", "begin\nrow\ta\tb\nrow\tc\n", 0 }, { "a.pdf", "begin\ntable\tl1e300\tr-5\tx\nrow\ta\tb\tc\n", 0 },
  { "a.pdf", "begin\nbar\tx\t-99999999999\t1e99\twork\ntick\tnan\tx\nblanks\t1000000000\n", 0 },
  { "a.pdf", "begin\ntext\t\255\254\0\1\27[31m\n", 0 }, { "a.pdf", "begin\ntext\t" .. ("é\u{301}"):rep(1000) .. "\n", 0 },
  { "a.xlsx", "", 1 }, { "a.xlsx", "cell\t0\t0\ttext\tt\tx\n", 1 }, { "a.xlsx", "book\n", 1 },
  { "a.xlsx", BOOK .. "cell\t-1\t0\ttext\tt\tx\n", 1 }, { "a.xlsx", BOOK .. "cell\t9999999\t99999\ttext\tt\tx\n", 1 },
  { "a.xlsx", BOOK .. "cell\t0\t0\tno style\tt\tx\n", 1 }, { "a.xlsx", BOOK .. "cell\t0\t0\ttext\tq\tx\n", 1 },
  { "a.xlsx", BOOK .. "sheet\tBid\tportrait\tagain\n", 1 }, { "a.xlsx", BOOK .. "sheet\t[x]:*?/\\\tportrait\n", 1 },
  { "a.xlsx", BOOK .. "cell\t0\t0\ttext\tt\t" .. ("x"):rep(40000) .. "\n", 1 },
  { "a.xlsx", BOOK .. "book\tagain\n", 0 }, { "a.xlsx", BOOK .. "repeat\t9\t-3\n", 1 },
  { "a.doc", PAPER, 2 }, { ".pdf", PAPER, 2 }, { "''", PAPER, 2 },
}

for i, case in ipairs(BAD) do
  sh:test(("broken text %d for %s ends as it should"):format(i, case[1]), function()
    same(status_of(case[1], case[2]), case[3], case[2]:sub(-80))
  end)
end

-- Bytes changed, lines lost, doubled and cut, by a seed.
local function spoil(text)
  for _ = 1, math.random(6) do
    local at = math.random(#text)
    local how = math.random(4)
    if how == 1 then text = text:sub(1, at - 1) .. string.char(math.random(0, 255)) .. text:sub(at + 1)
    elseif how == 2 then text = text:sub(1, at - 1) .. text:sub(at + math.random(20))
    elseif how == 3 then text = text:sub(1, at) .. text:sub(math.random(#text))
    else text = text:sub(1, at - 1) .. ("9"):rep(math.random(12)) .. text:sub(at) end
    if text == "" then text = "\n" end
  end
  return text
end

sh:test("texts spoilt by chance end by themselves", function()
  math.randomseed(7)
  for i = 1, 40 do
    local name, text = "a.pdf", spoil(PAPER)
    if i % 2 == 0 then name, text = "a.xlsx", spoil(BOOK) end
    local status = status_of(name, text)
    assert(status == 0 or status == 1, ("%s %d: status %s\n%s"):format(name, i, status, text))
  end
end)

-- It waits for its text at the end of a pipe; the kernel tells what it has given up by then.
sh:test("it has given up its rights before it reads a word", function()
  local status = sh:sh("grep -c Seccomp_filters /proc/self/status")
  if status:match("%d") == "0" or (sh:run "--version"):find("files         only", 1, true) then return end
  sh:sh("rm -f words; mkfifo words")
  for _, name in ipairs { "a.pdf", "a.xlsx" } do
    local text = sh:sh(([[%s %s <words >made 2>&1 & p=$!; exec 9>words
      for i in $(seq 2000); do grep -q 'Seccomp:.2' /proc/$p/status && break; done
      grep -E '^(NoNewPrivs|Seccomp):' /proc/$p/status; exec 9>&-; wait $p]]):format(shell.quote(press), name))
    same(text, "NoNewPrivs:\t1\nSeccomp:\t2\n", name)
  end
end)

sh:finish()
