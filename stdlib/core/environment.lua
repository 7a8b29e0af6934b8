--- The environment of scripts: looks a global name up when a script first uses it.
local edit = require "native.edit"
local finding = require "core.finding"
local place = require "native.place"
local value = require "core.value"
local words = require "core.words"

--- Names that people try because other Lua programs have them.
local ABSENT = {
  print = "a recipe has no output; a `note` step speaks to the crew",
  io = "a recipe cannot touch files", os = "a recipe cannot see the clock or the system",
  load = "a recipe cannot load text", loadstring = "a recipe cannot load text",
  dofile = 'use require "folder.name"', loadfile = 'use require "folder.name"',
  coroutine = "a recipe runs straight through", debug = "it is not available to recipes",
  package = 'use require "folder.name"', collectgarbage = "it is not available to recipes",
  rawget = "it is not available to recipes", rawset = "it is not available to recipes",
  rawequal = "it is not available to recipes", rawlen = "it is not available to recipes",
  next = "use pairs", _G = "it is not available to recipes",
}

local STANDARD = { "assert", "error", "ipairs", "math", "pairs", "pcall", "require", "select", "string", "table",
  "tonumber", "tostring", "type", "utf8" }

-- A word is certain where it is called: a name of the user's own would be just as near elsewhere.
local function respelling(at, name)
  local fix, safe = finding.respelling(at, name, words.names())
  return fix, safe and finding.next_character(at):find("[\"'({]") ~= nil
end

-- The field that a name stands behind as its value, as in `bond = resin,`; nil elsewhere.
local function field_before(at)
  local _, before = edit.begin(at)
  local field = before and before:match("([%a_][%w_]*)%s*=%s*$")
  return field and finding.next_character(at):find("^[,;}]") and field or nil
end

-- Is the name one of the words that a field of that name takes?
local function is_choice(field, name)
  for _, word in ipairs(words.names()) do
    for _, known in ipairs(words.definition(word).fields or {}) do
      for _, choice in ipairs(known[1] == field and known[2].names or {}) do
        if choice == name then return true end
      end
    end
  end
  return false
end

local function help_for(at, name)
  local synonym = require("core.synonyms").words[name]
  if synonym then return "write " .. synonym end
  if field_before(at) then return ('a text stands in quotes: "%s"; a name of your own needs `local`'):format(name) end
  return "`gritwork words` lists them; a name of your own needs `local`"
end

--- The value of a global name. An unknown name is reported once where it is used, and stands for nothing after
-- that.
return function(name)
  local found = words.value(name)
  if found ~= nil then return found end
  local at = place.global(name)
  local what = { code = "name", at = at, message = ("`%s` is not a word of the language"):format(name) }
  local field = field_before(at)
  if ABSENT[name] then
    what.help = ABSENT[name]
  elseif field and is_choice(field, name) then
    what.fix, what.safe = ('"%s"'):format(name), true
    what.help = "write it in quotes: " .. what.fix
  else
    what.fix, what.safe = respelling(at, name)
    what.help = finding.did_you_mean(name, words.names()) or finding.did_you_mean(name, STANDARD) or help_for(at, name)
  end
  finding.error(what)
  return value.new_unknown()
end
