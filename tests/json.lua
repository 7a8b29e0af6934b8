--- Reads JSON (RFC 8259) into tables, for the tests; a member that is null is left out.
local json = {}

local ESCAPES = { b = "\b", f = "\f", n = "\n", r = "\r", t = "\t" }

local function fail(text, at, what) error(("JSON: %s at byte %d: %s"):format(what, at, text:sub(at, at + 20)), 0) end

local function skip(text, at) return text:find("[^ \t\r\n]", at) or #text + 1 end

local function read_string(text, at)
  local parts, from = {}, at + 1
  while true do
    local stop = text:find('["\\]', from)
    if not stop then fail(text, at, "unterminated string") end
    parts[#parts + 1] = text:sub(from, stop - 1)
    if text:sub(stop, stop) == '"' then return table.concat(parts), stop + 1 end
    local letter = text:sub(stop + 1, stop + 1)
    if letter == "u" then
      parts[#parts + 1] = utf8.char(tonumber(text:sub(stop + 2, stop + 5), 16))
      from = stop + 6
    else
      parts[#parts + 1] = ESCAPES[letter] or letter
      from = stop + 2
    end
  end
end

local read_value

local function read_array(text, at)
  local list = {}
  at = skip(text, at + 1)
  if text:sub(at, at) == "]" then return list, at + 1 end
  while true do
    list[#list + 1], at = read_value(text, at)
    at = skip(text, at)
    local mark = text:sub(at, at)
    if mark == "]" then return list, at + 1 end
    if mark ~= "," then fail(text, at, "`,` or `]` wanted") end
    at = at + 1
  end
end

local function read_object(text, at)
  local object = {}
  at = skip(text, at + 1)
  if text:sub(at, at) == "}" then return object, at + 1 end
  while true do
    at = skip(text, at)
    local key
    key, at = read_string(text, at)
    at = skip(text, at)
    if text:sub(at, at) ~= ":" then fail(text, at, "`:` wanted") end
    object[key], at = read_value(text, at + 1)
    at = skip(text, at)
    local mark = text:sub(at, at)
    if mark == "}" then return object, at + 1 end
    if mark ~= "," then fail(text, at, "`,` or `}` wanted") end
    at = at + 1
  end
end

local WORDS = { ["true"] = { true }, ["false"] = { false }, null = {} }

function read_value(text, at)
  at = skip(text, at)
  local first = text:sub(at, at)
  if first == "{" then return read_object(text, at) end
  if first == "[" then return read_array(text, at) end
  if first == '"' then return read_string(text, at) end
  local word = text:match("^%a+", at)
  if WORDS[word] then return WORDS[word][1], at + #word end
  local number = text:match("^-?%d+%.?%d*[eE]?[+-]?%d*", at)
  if not number then fail(text, at, "a value wanted") end
  return tonumber(number), at + #number
end

--- One JSON document.
function json.read(text)
  local value, at = read_value(text, 1)
  if skip(text, at) <= #text then fail(text, at, "more after the document") end
  return value
end

return json
