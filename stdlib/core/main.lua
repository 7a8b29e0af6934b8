--- What happens to a document once its script has returned.
local document = require "core.document"
local finding = require "core.finding"
local lineage = require "core.lineage"
local object = require "core.object"
local rules = require "core.rules"
local value = require "core.value"
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
  rules.run(data)
  if finding.errors() == 0 then value.report_unused() end
  main.document = data
  return data
end

--- Runs the rules that need the schedule of the job that was read last.
function main.plan(facts)
  rules.run_plan(main.document, facts)
end

--- Where a value of the document that was read last came from: see core.lineage.
function main.lineage(path)
  if not main.document then return nil end
  return lineage.explain(main.document, path)
end

--- All paths that lead to one.
function main.paths() return lineage.list(main.document) end

return main
