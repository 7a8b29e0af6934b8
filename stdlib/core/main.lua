--- What happens to a document once its script has returned.
local document = require "core.document"
local finding = require "core.finding"
local object = require "core.object"
local rules = require "core.rules"
local value = require "core.value"
local what_if = require "core.what_if"
local words = require "core.words"

local main = {}

local FORMS = { [words.step] = "a step", [words.part] = "a part of a job", [words.override] = "an override" }

local function refuse(result, at)
  local data = object.data(result)
  local message
  if result == nil then message = "this file returns nothing"
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

--- Keeps the recipe that was read last, or the one that it was tailored from, for what is read next. Answers whether there
-- is one.
function main.keep(parent)
  local data = main.document
  main.kept = data and data.word == "recipe" and (not parent and data or data.parent) or nil
  if not parent then main.document = nil end
  return main.kept ~= nil
end

--- Runs the rules on the kept recipe.
function main.check_kept() rules.run(main.kept) end

--- In a job that is read from now on, the kept recipe takes the place of the one of an area; of all areas without a name.
function main.use_kept(area) main.stand_in = { area = area } end

--- What differs from the kept recipe to the one that was read last: { was, now, changes }; nil unless both are recipes.
function main.compare()
  local was, now = main.kept, main.document
  if not was or not now or now.word ~= "recipe" then return nil end
  return { was = was, now = now, changes = require("core.compare").recipes(was, now) }
end

return main
