--- Findings: what is wrong with a document, where, and what would be right.
local native = require "native.finding"

local finding = { near = native.near, within = native.within, errors = native.errors, text = native.text,
  mark = native.mark, take = native.take }

--- Reports at a level: code, at (a place), message; optional help, note, basis, labels = { { at, text } }, fix, safe.
local function report(level, what)
  what.level = level
  native.add(what)
end

--- The same with `level` in it: "error", "warning" or "note".
function finding.add(what) native.add(what) end

function finding.error(what) report("error", what) end
function finding.warning(what) report("warning", what) end

--- "did you mean `hone`?" for a name among names, or nil when nothing is near.
function finding.did_you_mean(name, names)
  local near = { native.near(name, names) }
  if #near == 0 then return nil end
  for i, word in ipairs(near) do near[i] = "`" .. word .. "`" end
  return "did you mean " .. table.concat(near, " or ") .. "?"
end

local function without_digits(text) return (text:gsub("%d", "")) end

-- One letter wrong in a word long enough, and not in a number: "gloss 65" may be any gloss.
local function is_slip(name, meant)
  return #meant >= 4 and native.distance(name, meant) <= 1 and without_digits(name) ~= without_digits(meant)
end

--- What should stand where a misspelt name does, and whether that is certain; nil if no name is near, or several are, or
-- the source spells the name in another way.
function finding.respelling(at, name, names)
  local meant, another = native.near(name, names)
  if not meant or another then return nil end
  local written = native.text(at)
  local quote = written and written:match("^[\"']")
  if quote and written == quote .. name .. quote and not meant:find("[\"'\\\\]") then
    return quote .. meant .. quote, is_slip(name, meant)
  elseif written == name and meant:find("^[%a_][%w_]*$") then
    return meant, is_slip(name, meant)
  end
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

--- The source text at a place, if it is a plain number.
function finding.plain_number(at)
  local written = native.text(at)
  return written and written:match("^%d+%.?%d*$")
end

--- Up to `most` names as a list for people: "cream, fine aggregate, coarse aggregate".
function finding.choices(names, most)
  most = most or 12
  if #names <= most then return table.concat(names, ", ") end
  return table.concat(names, ", ", 1, most) .. ", ..."
end

return finding
