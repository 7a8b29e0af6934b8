--- What happens to a document once its script has returned.
local document = require "core.document"
local edit = require "native.edit"
local finding = require "core.finding"
local object = require "core.object"
local rules = require "core.rules"
local value = require "core.value"
local what_if = require "core.what_if"
local words = require "core.words"

local main = {}

local FORMS = { [words.step] = "a step", [words.part] = "a part of a job", [words.override] = "an override" }

-- The document that a file ends with and does not return: the fix puts `return` before it, or behind it the name
-- that it was given. `at` is the file's end.
local function refuse_nothing(at)
  local last = words.last_built
  local begin, before = edit.begin(last and last.call_at or 0)
  local ends_file = begin and finding.next_character(last.call_at) == "" and finding.text(last.call_at) ~= ""
  local what = { code = "document", at = at, message = "this file returns nothing",
    help = 'end it with: return recipe "name" { ... } (or job, prices, tailor, rule, test)' }
  if ends_file and before:find("^%s*$") then
    what.fix, what.fix_at, what.help = "return ", begin, "write `return` before it"
  elseif ends_file and before:match("^local%s+([%a_][%w_]*)%s*=%s*$") then
    local name = before:match("^local%s+([%a_][%w_]*)")
    local line_end = finding.text(last.call_at):find("\r\n", 1, true) and "\r\n" or "\n"
    local _, on_line = edit.begin(at)
    what.fix = ("%sreturn %s%s"):format(on_line ~= "" and line_end or "", name, line_end)
    what.fix_at, what.help = at, "end the file with: return " .. name
  end
  if what.fix then
    what.at, what.safe = last.at, true
    what.message = ("%s is made, but not returned"):format(document.label(last))
  end
  finding.error(what)
end

local function refuse(result, at)
  local data = object.data(result)
  local message
  if result == nil then return refuse_nothing(at)
  elseif data and data.class == words.pending then
    message = ('`%s "%s"` has no { ... } after it'):format(data.word, data.name)
  elseif data and FORMS[data.class] then message = "this file returns " .. FORMS[data.class] .. ", not a document"
  else message = "this file returns " .. object.describe(result) .. ", not a document" end
  finding.error { code = "document", at = at, message = message,
    help = 'end it with: return recipe "name" { ... } (or job, prices, tailor, rule, test)' }
  return nil
end

--- Checks what a script returned and runs the rules on it. Gives the document's data, or nil.
function main.finish(result, at)
  if value.is_unknown(result) then return nil end
  local data = object.data(result, document.class)
  if not data then return refuse(result, at or 0) end
  if main.stand_in and data.word == "job" then require("core.job").stand_in(data, main.kept, main.stand_in.area) end
  what_if.refuse_unused()
  rules.run(data)
  if finding.errors() == 0 then value.report_unused() end
  main.document = data
  return data
end

--- What the code of a finding stands for (core.manual): a rule of the document that was read last may be the shop's
-- own.
function main.explain(code) return require("core.manual").explain(code, main.document) end

--- Runs the rules that need the schedule of the job that was read last, or of its alternate of that number.
function main.plan(facts, alternate)
  rules.run_plan(main.document, facts, alternate)
end

-- ---- lineage and comparing: their modules are read only when they are asked for, so that a check starts fast

--- Where a value of the document that was read last came from: see core.lineage.
function main.lineage(path)
  if not main.document then return nil end
  return require("core.lineage").explain(main.document, path)
end

--- All paths that lead to one.
function main.paths() return require("core.lineage").list(main.document) end

--- Keeps the recipe that was read last, or the one that it was tailored from, for what is read next. Answers
-- whether there is one.
function main.keep(parent)
  local data = main.document
  main.kept = data and data.word == "recipe" and (not parent and data or data.parent) or nil
  if not parent then main.document = nil end
  return main.kept ~= nil
end

--- Runs the rules on the kept recipe.
function main.check_kept() rules.run(main.kept) end

--- In a job that is read from now on, the kept recipe takes the place of the one of an area; of all areas without a
-- name.
function main.use_kept(area) main.stand_in = { area = area } end

--- What differs from the kept recipe to the one that was read last: { was, now, changes, steps } (core.compare);
-- nil unless both are recipes.
function main.compare()
  local was, now = main.kept, main.document
  if not was or not now or now.word ~= "recipe" then return nil end
  local changes, steps = require("core.compare").recipes(was, now)
  return { was = was, now = now, changes = changes, steps = steps }
end

return main
