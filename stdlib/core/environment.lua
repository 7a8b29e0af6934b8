--- The environment of scripts: looks a global name up when a script first uses it.
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

--- The value of a global name. An unknown name is reported once where it is used, and stands for nothing after that.
return function(name)
  local found = words.value(name)
  if found ~= nil then return found end
  local at = place.global(name)
  local fix, safe = respelling(at, name)
  finding.error {
    code = "name", at = at, fix = not ABSENT[name] and fix or nil, safe = safe,
    message = ("`%s` is not a word of the language"):format(name),
    help = ABSENT[name] or finding.did_you_mean(name, words.names()) or finding.did_you_mean(name, STANDARD)
      or "`gritwork words` lists them; a name of your own needs `local`",
  }
  return value.new_unknown()
end
