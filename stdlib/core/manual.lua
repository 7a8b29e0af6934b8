--- The manual of words, rules and the trade library, from the same tables that check documents.
local codes = require "core.codes"
local examples = require "core.examples"
local finding = require "core.finding"
local page = require "core.page"
local every = require "core.rules"
local trade_manual = require "core.trade_manual"
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

--- All words and rules, a line each.
function manual.list()
  local out = {}
  for _, kind in ipairs(KINDS) do
    out[#out + 1] = kind[2] .. "\n"
    for _, definition in ipairs(of_kind(kind[1])) do out[#out + 1] = page.row(definition.word, definition.says, 14) end
    out[#out + 1] = "\n"
  end
  out[#out + 1] = "Rules\n"
  for _, rule in ipairs(rules()) do out[#out + 1] = page.row(rule.id, rule.says, 20) end
  out[#out + 1] = "\nThe trade library\n"
  for _, module in ipairs(trade_manual.modules()) do out[#out + 1] = page.row("std." .. module.name, module.says, 20) end
  out[#out + 1] = "\n`gritwork words NAME` tells more about one; `gritwork words climate` lists the functions of a module.\n"
  return table.concat(out)
end

local function word_entry(definition)
  local out = { definition.word, "\n  ", page.fold(definition.says, 80, 2), "\n\n" }
  if definition.fields then
    out[#out + 1] = "Fields\n"
    page.field_lines(definition.fields, out, 0)
    out[#out + 1] = "\n"
  end
  if definition.entries then out[#out + 1] = ("Without a name: %s\n\n"):format(definition.entries) end
  out[#out + 1] = "Example\n  " .. page.fold(definition.example, 80, 4) .. "\n"
  return table.concat(out)
end

local function indented(text) return "  " .. examples.text(text):gsub("\n", "\n  ") end

local function rule_entry(rule)
  local out = { rule.id, " (", rule.level, ", looks at a ", rule.scope, ")\n  ", page.fold(rule.says, 80, 2), "\n" }
  if rule.law then out[#out + 1] = "  It comes from a regulation: a waiver acknowledges it and does not hide it.\n" end
  for _, part in ipairs { { "Basis", rule.basis .. " (" .. rule.status .. ")" }, { "What to do", rule.help } } do
    out[#out + 1] = ("\n%s\n  %s\n"):format(part[1], page.fold(part[2], 80, 2))
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

-- What to do about it and the examples, for those who have the finding before them; nil where the shop says nothing
-- of it.
local function rule_help(rule)
  local parts = { rule.help and "What to do: " .. rule.help }
  for _, part in ipairs { { "This breaks it", rule.bad }, { "This keeps to it", rule.good } } do
    if part[2] then parts[#parts + 1] = ("%s:\n%s"):format(part[1], indented(part[2])) end
  end
  return #parts > 0 and table.concat(parts, "\n\n") or nil
end

--- What the code of a finding stands for: { says, basis, help, level, law }; nil for one that nobody knows.
-- `document`, if there is one, may bring rules of the shop.
function manual.explain(code, document)
  local rule = document and document.record and require("core.rules").own(document, code) or find_rule(code)
  if rule then
    return { says = rule.says, basis = rule.basis .. (rule.status and (" (%s)"):format(rule.status) or ""),
      help = rule_help(rule), level = rule.only_level or rule.level, law = rule.law }
  end
  return codes.says[code] and { says = codes.says[code], basis = "a requirement of the language or of the program",
    level = codes.warnings[code] and "warning" or "error" }
end

local function code_entry(code)
  return ("%s (a finding's code)\n  %s\n"):format(code, page.fold(codes.says[code], 80, 2))
end

--- The entry of one word, rule, code, or module or function of the trade library; nil and a finding if there is
-- none.
function manual.entry(name)
  local definition = words.definition(name)
  if definition then return word_entry(definition) end
  local rule = find_rule(name)
  if rule then return rule_entry(rule) end
  local of_trade = trade_manual.entry(name)
  if codes.says[name] then return code_entry(name) .. (of_trade and "\n" .. of_trade or "") end
  if of_trade then return of_trade end
  local names = trade_manual.names()
  for _, word in ipairs(words.names()) do names[#names + 1] = word end
  for _, other in ipairs(rules()) do names[#names + 1] = other.id end
  finding.error { code = "name", message = ("there is no word, rule or function `%s`"):format(name),
    help = finding.did_you_mean(name, names) or "`gritwork words` lists them" }
  return nil
end

-- ---- the reference manual

local function manual_word(definition, out)
  out[#out + 1] = ("### %s\n\n%s.\n\n```lua\n%s\n```\n\n"):format(definition.word,
    definition.says:gsub("^%l", string.upper), definition.example)
  if definition.entries then out[#out + 1] = ("Without a name: %s.\n\n"):format(definition.entries) end
  if not definition.fields then return end
  out[#out + 1] = "| field | takes | says | if left out |\n|---|---|---|---|\n"
  page.field_table(definition.fields, "", out)
  out[#out + 1] = "\n"
end

--- The reference of the whole language, in Markdown.
function manual.manual()
  local out = { "# Words, rules and the trade library\n\nMade by `gritwork words --manual` from the tables that check documents: do not edit.\n\n" }
  for _, kind in ipairs(KINDS) do
    out[#out + 1] = ("## %s\n\n"):format(kind[2])
    for _, definition in ipairs(of_kind(kind[1])) do manual_word(definition, out) end
  end
  out[#out + 1] = "## Rules\n\n| rule | level | looks at | states | basis |\n|---|---|---|---|---|\n"
  for _, rule in ipairs(rules()) do
    out[#out + 1] = ("| `%s` | %s | %s | %s | %s |\n"):format(rule.id, rule.level, rule.scope, page.escaped(rule.says), page.escaped(rule.basis))
  end
  trade_manual.manual(out)
  return table.concat(out)
end

-- ---- definitions for Lua editors (LuaCATS annotations)

local function cats_word(definition, out)
  local class = "gritwork.fields." .. definition.word
  if definition.fields then
    out[#out + 1] = ("---@class %s\n"):format(class)
    for _, field in ipairs(definition.fields) do
      out[#out + 1] = ("---@field %s%s %s # %s\n"):format(field[1], field.required and "" or "?", page.cats_type(field[2]), field.says)
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
  trade_manual.meta(out)
  return table.concat(out)
end

return manual
