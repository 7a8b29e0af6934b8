--- Findings: what is wrong with a document, where, and what would be right.
local native = require "native.finding"

local finding = { within = native.within, errors = native.errors, text = native.text, offset = native.offset,
  mark = native.mark, take = native.take }

--- Reports at a level: code, at (a place), message; optional help, note, basis, labels = { { at, text } }, and a
-- fix: the text that should stand at `at`, or at `fix_at` if that is given, and `safe` if no other can be meant.
local function report(level, what)
  what.level = level
  finding.add(what)
end

--- The same with `level` in it: "error", "warning" or "note".
function finding.add(what)
  what.about = what.about or finding.subject
  native.add(what)
end

--- Calls read(...), and says of everything that it reports that it is about `label`. Answers what it answers.
function finding.of(label, read, ...)
  local outer = finding.subject
  finding.subject = label
  local result = read(...)
  finding.subject = outer
  return result
end

function finding.error(what) report("error", what) end
function finding.warning(what) report("warning", what) end

-- The one name that differs in capitals alone.
local function same_letters(name, names)
  for _, word in ipairs(names) do if word:lower() == name:lower() then return word end end
  return nil
end

-- Up to three names that go on where this one ends, or that this one goes on from: `lithium silicate` for
-- `lithium`, `mon` for `monday`, `100` for `hone 100`.
local function continued(name, names)
  local found = {}
  name = name:lower()
  for _, word in ipairs(names) do
    local longer = #name >= 4 and word:sub(1, #name + 1) == name .. " "
    local shorter = #word >= 3 and name:sub(1, #word) == word
    if longer or shorter or name:match("^%l+ (.+)$") == word then found[#found + 1] = word end
  end
  return #found <= 3 and found or {}
end

--- Up to three names that a misspelt one may have been meant for, best first.
function finding.near(name, names)
  local same = same_letters(name, names)
  if same then return same end
  local near = { native.near(name, names) }
  if #near == 0 then near = continued(name, names) end
  return table.unpack(near)
end

--- "did you mean `hone`?" for a name among names, or nil when nothing is near.
function finding.did_you_mean(name, names)
  local near = { finding.near(name, names) }
  if #near == 0 then return nil end
  for i, word in ipairs(near) do near[i] = "`" .. word .. "`" end
  return "did you mean " .. table.concat(near, " or ") .. "?"
end

local function without_digits(text) return (text:gsub("%d", "")) end

-- Capitals, or one letter wrong in a word long enough, and not in a number: "gloss 65" may be any gloss.
local function is_slip(name, meant)
  if name:lower() == meant:lower() then return true end
  return #meant >= 4 and native.distance(name, meant) <= 1 and without_digits(name) ~= without_digits(meant)
end

--- Another name as it would stand at the place of one, in quotes where that is; nil if the source spells it in
-- another way.
function finding.renamed(at, name, meant)
  local written = native.text(at)
  local quote = written and written:match("^[\"']")
  if quote and written == quote .. name .. quote and not meant:find("[\"'\\]") then return quote .. meant .. quote end
  return written == name and meant:find("^[%a_][%w_]*$") and meant or nil
end

--- What should stand where a misspelt name does, and whether that is certain; nil if no name is near, or several
-- are, or the source spells the name in another way.
function finding.respelling(at, name, names)
  local meant, another = finding.near(name, names)
  local fix = meant and not another and finding.renamed(at, name, meant)
  if fix then return fix, is_slip(name, meant) end
  return nil
end

--- What follows a place, blanks left out: one character, "" at the end.
function finding.next_character(at)
  local written = native.text(at)
  return written and native.text(at, 40):sub(#written + 1):match("^%s*(.?)") or ""
end

--- The text at a place with two pieces of it changed round; nil unless both are in it, one after the other.
function finding.swapped(at, a, b)
  local a_first, a_last = native.offset(at, a)
  local b_first, b_last = native.offset(at, b)
  if not a_first or not b_first or a_last >= b_first then return nil end
  local text = native.text(at)
  return text:sub(1, a_first - 1) .. text:sub(b_first, b_last) .. text:sub(a_last + 1, b_first - 1)
    .. text:sub(a_first, a_last) .. text:sub(b_last + 1)
end

--- The source text at a place, if it is a plain number, in quotes or not.
function finding.plain_number(at)
  local written = native.text(at)
  return written and (written:match("^%d+%.?%d*$") or written:match("^[\"'](%d+%.?%d*)[\"']$"))
end

--- Stands this text at a place as a plain string, in quotes and nothing else?
function finding.is_quoted(at, text)
  local written = native.text(at)
  return written ~= nil and (written == '"' .. text .. '"' or written == "'" .. text .. "'")
end

--- Up to `most` names as a list for people: "cream, fine aggregate, coarse aggregate".
function finding.choices(names, most)
  most = most or 12
  if #names <= most then return table.concat(names, ", ") end
  return table.concat(names, ", ", 1, most) .. ", ..."
end

return finding
