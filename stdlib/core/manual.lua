--- The manual of words and rules, from the same tables that check documents.
local codes = require "core.codes"
local examples = require "core.examples"
local finding = require "core.finding"
local every = require "core.rules"
local words = require "core.words"

local manual = {}

local KINDS = { -- in the order of the list
  { "document", "Documents" }, { "step", "Steps" }, { "part", "Parts of a job" },
  { "override", "Tailoring" }, { "waiver", "Waivers" }, { "value", "Values" },
}

local function rules()
  local list = {}
  for _, rule in ipairs(every.all()) do list[#list + 1] = rule end
  table.sort(list, function(a, b) return a.id < b.id end)
  return list
end

local function of_kind(kind)
  local list = {}
  for _, name in ipairs(words.names()) do
    local definition = words.definition(name)
    if definition.kind == kind then list[#list + 1] = definition end
  end
  return list
end

--- Folds a text at spaces; lines after the first begin with `indent` blanks.
local function fold(text, width, indent)
  local lines, line = {}, ""
  for word in text:gmatch("%S+") do
    if #line > 0 and #line + 1 + #word > width - indent then
      lines[#lines + 1] = line
      line = word
    else
      line = #line > 0 and line .. " " .. word or word
    end
  end
  lines[#lines + 1] = line
  return table.concat(lines, "\n" .. (" "):rep(indent))
end

local function row(name, text, column)
  return "  " .. name .. (" "):rep(math.max(1, column - 2 - #name)) .. fold(text, 80, column) .. "\n"
end

--- All words and rules, a line each.
function manual.list()
  local out = {}
  for _, kind in ipairs(KINDS) do
    out[#out + 1] = kind[2] .. "\n"
    for _, definition in ipairs(of_kind(kind[1])) do out[#out + 1] = row(definition.word, definition.says, 14) end
    out[#out + 1] = "\n"
  end
  out[#out + 1] = "Rules\n"
  for _, rule in ipairs(rules()) do out[#out + 1] = row(rule.id, rule.says, 20) end
  out[#out + 1] = "\n`gritwork words NAME` tells more about one.\n"
  return table.concat(out)
end

local function default_text(field)
  if field.required then return "required" end
  if field.default == nil then return "may be left out" end
  return ("else %s (%s)"):format(type(field.default) == "string" and '"' .. field.default .. '"' or tostring(field.default),
    field.basis)
end

local function type_text(kind)
  if kind.names and #kind.names <= 8 then return "one of " .. table.concat(kind.names, ", ") end
  if kind.list then return "a list of " .. kind.list.says end
  return kind.says
end

local function limits_text(kind)
  if kind.low and kind.high then return (", %s to %s"):format(kind.low, kind.high) end
  if kind.low then return (", at least %s"):format(kind.low) end
  if kind.high then return (", at most %s"):format(kind.high) end
  return ""
end

local function field_lines(fields, out, depth)
  local column = 18 + 2 * depth
  for _, field in ipairs(fields) do
    local text = ("%s; %s%s; %s"):format(field.says, type_text(field[2]), limits_text(field[2]), default_text(field))
    out[#out + 1] = (" "):rep(2 * depth) .. row(field[1], text, 18):gsub("\n" .. (" "):rep(18), "\n" .. (" "):rep(column))
    local inner = field[2].fields or (field[2].map and field[2].map.fields) or (field[2].map and field[2].map.list and field[2].map.list.fields)
    if inner then field_lines(inner, out, depth + 1) end
  end
end

local function word_entry(definition)
  local out = { definition.word, "\n  ", fold(definition.says, 80, 2), "\n\n" }
  if definition.fields then
    out[#out + 1] = "Fields\n"
    field_lines(definition.fields, out, 0)
    out[#out + 1] = "\n"
  end
  if definition.entries then out[#out + 1] = ("Without a name: %s\n\n"):format(definition.entries) end
  out[#out + 1] = "Example\n  " .. fold(definition.example, 80, 4) .. "\n"
  return table.concat(out)
end

local function indented(text)
  return ("\n" .. text:gsub("^%s*\n", ""):gsub("%s+$", "")):gsub("\n", "\n  "):gsub("^\n", "")
end

local function rule_entry(rule)
  local out = { rule.id, " (", rule.level, ", looks at a ", rule.scope, ")\n  ", fold(rule.says, 80, 2), "\n" }
  if rule.law then out[#out + 1] = "  It comes from a regulation: a waiver acknowledges it and does not hide it.\n" end
  for _, part in ipairs { { "Basis", rule.basis .. " (" .. rule.status .. ")" }, { "What to do", rule.help } } do
    out[#out + 1] = ("\n%s\n  %s\n"):format(part[1], fold(part[2], 80, 2))
  end
  for _, part in ipairs { { "This breaks it", rule.bad }, { "This keeps to it", rule.good } } do
    out[#out + 1] = ("\n%s\n%s\n"):format(part[1], indented(part[2]))
  end
  return table.concat(out)
end

--- Every rule's two examples as whole scripts, each under a line "==== rule bad" or "==== rule good".
function manual.examples()
  local out = {}
  for _, rule in ipairs(rules()) do
    for _, which in ipairs { "bad", "good" } do
      out[#out + 1] = ("==== %s %s\n%s"):format(rule.id, which, examples.script(rule, rule[which]))
    end
  end
  return table.concat(out)
end

local function find_rule(name)
  for _, rule in ipairs(rules()) do if rule.id == name then return rule end end
  return nil
end

--- What the code of a finding stands for, and the basis of that; nil for a code of the shop's own.
function manual.explain(code)
  local rule = find_rule(code)
  if rule then return rule.says, rule.basis end
  return codes[code], codes[code] and "a requirement of the language or of the program"
end

local function code_entry(code)
  return ("%s (a finding's code)\n  %s\n"):format(code, fold(codes[code], 80, 2))
end

--- The entry of one word, rule or code; nil and a finding if there is none.
function manual.entry(name)
  local definition = words.definition(name)
  if definition then return word_entry(definition) end
  local rule = find_rule(name)
  if rule then return rule_entry(rule) end
  if codes[name] then return code_entry(name) end
  local names = {}
  for _, word in ipairs(words.names()) do names[#names + 1] = word end
  for _, other in ipairs(rules()) do names[#names + 1] = other.id end
  finding.error { code = "name", message = ("there is no word or rule `%s`"):format(name),
    help = finding.did_you_mean(name, names) or "`gritwork words` lists them" }
  return nil
end

-- ---- the reference manual

local function escaped(text) return (text:gsub("|", "\\|")) end

local function manual_fields(fields, prefix, out)
  for _, field in ipairs(fields) do
    out[#out + 1] = ("| `%s%s` | %s%s | %s | %s |\n"):format(prefix, field[1], escaped(type_text(field[2])), limits_text(field[2]),
      escaped(field.says), escaped(default_text(field)))
    local kind = field[2]
    if kind.fields then manual_fields(kind.fields, prefix .. field[1] .. ".", out) end
    if kind.map and kind.map.fields then manual_fields(kind.map.fields, prefix .. field[1] .. ".*.", out) end
    if kind.map and kind.map.list and kind.map.list.fields then
      manual_fields(kind.map.list.fields, prefix .. field[1] .. ".*[].", out)
    end
  end
end

local function manual_word(definition, out)
  out[#out + 1] = ("### %s\n\n%s.\n\n```lua\n%s\n```\n\n"):format(definition.word,
    definition.says:gsub("^%l", string.upper), definition.example)
  if definition.entries then out[#out + 1] = ("Without a name: %s.\n\n"):format(definition.entries) end
  if not definition.fields then return end
  out[#out + 1] = "| field | takes | says | if left out |\n|---|---|---|---|\n"
  manual_fields(definition.fields, "", out)
  out[#out + 1] = "\n"
end

--- The reference of the whole language, in Markdown.
function manual.manual()
  local out = { "# Words and rules\n\nMade by `gritwork words --manual` from the tables that check documents: do not edit.\n\n" }
  for _, kind in ipairs(KINDS) do
    out[#out + 1] = ("## %s\n\n"):format(kind[2])
    for _, definition in ipairs(of_kind(kind[1])) do manual_word(definition, out) end
  end
  out[#out + 1] = "## Rules\n\n| rule | level | looks at | states | basis |\n|---|---|---|---|---|\n"
  for _, rule in ipairs(rules()) do
    out[#out + 1] = ("| `%s` | %s | %s | %s | %s |\n"):format(rule.id, rule.level, rule.scope, escaped(rule.says), escaped(rule.basis))
  end
  return table.concat(out)
end

-- ---- definitions for Lua editors (LuaCATS annotations)

local function cats_type(kind)
  if kind == nil then return "any" end
  if kind.says == "true or false" then return "boolean" end
  if kind.window then return "gritwork.value|gritwork.window" end
  if kind.kind then return "gritwork.value" end
  if kind.names then
    local quoted = {}
    for i, name in ipairs(kind.names) do quoted[i] = ('"%s"'):format(name) end
    return table.concat(quoted, "|")
  end
  if kind.says == "a number" or kind.says == "a whole number" then return "number" end
  if kind.document then return "gritwork." .. kind.document end
  if kind.list then return ("(%s)|(%s)[]"):format(cats_type(kind.list), cats_type(kind.list)) end
  if kind.fields or kind.map then return "table" end
  if kind.says == "a function" then return "function" end
  return kind.says == "a value" and "any" or "string"
end

local function cats_word(definition, out)
  local class = "gritwork.fields." .. definition.word
  if definition.fields then
    out[#out + 1] = ("---@class %s\n"):format(class)
    for _, field in ipairs(definition.fields) do
      out[#out + 1] = ("---@field %s%s %s # %s\n"):format(field[1], field.required and "" or "?", cats_type(field[2]), field.says)
    end
    out[#out + 1] = "\n"
  end
  local result = definition.kind == "document" and "gritwork." .. definition.word or "gritwork." .. definition.kind
  out[#out + 1] = ("---%s\n---\n---`%s`\n"):format(definition.says, definition.example)
  if definition.kind == "value" then
    out[#out + 1] = ("---@param ... any\n---@return gritwork.value\nfunction %s(...) end\n\n"):format(definition.word)
  elseif definition.make then
    out[#out + 1] = ("---@param ... any\n---@return fun(fields: table): %s\nfunction %s(...) end\n\n"):format(result, definition.word)
  else
    out[#out + 1] = ("---@param name string\n---@return fun(fields: %s): %s\nfunction %s(name) end\n\n"):format(
      definition.fields and class or "table", result, definition.word)
  end
end

--- A definition file that teaches a Lua editor the words and their fields.
function manual.meta()
  local out = { "---@meta gritwork\n-- Made by `gritwork words --meta`: do not edit.\n\n",
    "---A quantity in text (\"3 in\"), or made with q.\n---@alias gritwork.value string|number|table\n",
    "---@class gritwork.window\n---@class gritwork.step\n---@class gritwork.part\n---@class gritwork.override\n" }
  for _, definition in ipairs(of_kind("document")) do out[#out + 1] = ("---@class gritwork.%s\n"):format(definition.word) end
  out[#out + 1] = "\n"
  for _, kind in ipairs(KINDS) do
    for _, definition in ipairs(of_kind(kind[1])) do cats_word(definition, out) end
  end
  return table.concat(out)
end

return manual
