--- Reads JSON as gritwork writes it: objects and lists become tables, null becomes nil.
local json = {}

local ESCAPES = { b = "\b", f = "\f", n = "\n", r = "\r", t = "\t" }
local WORDS = { ["true"] = true, ["false"] = false }

local read

local function read_string(text, at)
  local close = at + 1
  while true do
    close = assert(text:find('["\\]', close), "a string without an end")
    if text:sub(close, close) == '"' then break end
    close = close + 2
  end
  local raw = text:sub(at + 1, close - 1)
  raw = raw:gsub("\\u(%x%x%x%x)", function(hex) return utf8.char(tonumber(hex, 16)) end)
  return raw:gsub("\\(.)", function(c) return ESCAPES[c] or c end), close + 1
end

local function read_list(text, at)
  local list = {}
  at = text:match("^%s*()", at + 1)
  while text:sub(at, at) ~= "]" do
    list[#list + 1], at = read(text, at)
    at = text:match("^%s*,?%s*()", at)
  end
  return list, at + 1
end

local function read_object(text, at)
  local object, key = {}, nil
  at = text:match("^%s*()", at + 1)
  while text:sub(at, at) ~= "}" do
    key, at = read_string(text, at)
    object[key], at = read(text, text:match("^%s*:%s*()", at))
    at = text:match("^%s*,?%s*()", at)
  end
  return object, at + 1
end

function read(text, at)
  local c = text:sub(at, at)
  if c == '"' then return read_string(text, at) end
  if c == "[" then return read_list(text, at) end
  if c == "{" then return read_object(text, at) end
  local word, after = text:match("^([%a%d.+-]+)()", at)
  if word then
    if WORDS[word] ~= nil then return WORDS[word], after end
    return tonumber(word), after -- nil for null
  end
  error(("no JSON at byte %d"):format(at))
end

--- The value of a JSON text.
function json.read(text) return (read(text, text:match("^%s*()"))) end

return json
