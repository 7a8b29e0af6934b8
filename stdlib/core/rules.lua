--- Rules: what a sound recipe or job keeps to. Built-in ones are files in rules/; a document can bring its own.
--
-- A rule is {
--   id, level = "error" | "warning", says, basis, status = "confirmed" | "from memory" | "common practice" | ...,
--   help = what to do about it, bad and good = examples (see core.examples),
--   law = true where the figure is a regulation's: a waiver then acknowledges it, and the finding stays,
--   scope = "step" | "recipe" | "job" | "plan", check = function(subject, report, whole),
--   words = the steps that a rule of scope "step" looks at: { hone = true }; all of them where it is missing,
--   only_level = what a shop made of its level, whatever the check says }
--
-- check gets (step, report, recipe, job), (recipe, report, job), (job, report) or (plan, report); a recipe that is
-- checked by itself has no job. It calls report { message =, on =, field = } for each thing that breaks the rule:
-- `on` is the step, area, machine or document at fault (else the subject), `field` the field of it. Further keys:
-- at, level, help, note, labels = { { on =, field =, at =, text = } }, and fix = { text, at, safe } (core.mending).
local chain = require "core.chain"
local document = require "core.document"
local finding = require "core.finding"
local stdlib = require "native.stdlib"
local waivers = require "core.waivers"

local rules = {}

-- A list of words would be met by no step, and the rule would never be heard of.
local function refuse_list(rule, family)
  local word = rule.words and rule.words[1]
  if not word then return end
  finding.error { code = "rule", message = ("`words` of rule `%s` in rules/%s.lua is a list"):format(rule.id,
    family:gsub("%.", "/")), help = ("write words = { %s = true }"):format(word) }
end

local families = {}

-- The rules of a file, looked at when it is first asked for.
local function family_of(name)
  if not families[name] then
    families[name] = require("rules." .. name)
    for _, rule in ipairs(families[name]) do refuse_list(rule, name) end
  end
  return families[name]
end

-- The rules of the families that `wanted` says yes to, in the order of their names.
local function collect(wanted)
  local list = {}
  for _, name in ipairs(stdlib.names("rules")) do
    for _, rule in ipairs(wanted(name) and family_of(name) or {}) do list[#list + 1] = rule end
  end
  return list
end

--- All built-in rules, in a fixed order.
function rules.all()
  rules.list = rules.list or collect(function() return true end)
  return rules.list
end

--- The built-in rule of that id, or nil.
function rules.find(id)
  for _, rule in ipairs(rules.all()) do if rule.id == id then return rule end end
  return nil
end

-- Families in rules/job/ only look at jobs and schedules: a recipe by itself need not load them.
local function built_in(job)
  if job then return rules.all() end
  rules.of_recipes = rules.of_recipes or collect(function(name) return not name:find("^job%.") end)
  return rules.of_recipes
end

local DOCUMENTS = { recipe = true, job = true }

local function name_of(subject) return not DOCUMENTS[subject.word] and document.label(subject) or nil end

local function place_of(what, subject)
  return what.at or chain.at(what.on or subject, what.field)
end

local function labels_of(what)
  local labels = {}
  for i, label in ipairs(what.labels or {}) do
    labels[i] = { at = label.at or chain.at(label.on, label.field), text = label.text }
  end
  return labels
end

-- What has a fault already is not judged: one cause gives one finding.
local function is_faulty(what, subject)
  if (what.on or subject).record.faults then return true end
  for _, label in ipairs(what.labels or {}) do if label.on and label.on.record.faults then return true end end
  return false
end

-- What was told of the job as it is written, and the alternate that is looked at now; see `with_alternate`.
local told, alternate = {}, nil

local function key_of(found) return ("%s|%s|%s"):format(found.code, found.at, found.message) end

-- Of an alternate only what the job as written does not have is told, with its name.
local function tell(found)
  local key = key_of(found)
  if told[key] and alternate then return end
  told[key] = true
  if alternate then
    found.message = ("with the alternate `%s`: %s"):format(alternate.name, found.message)
    found.labels = found.labels or {}
    table.insert(found.labels, { at = alternate.name_at ~= 0 and alternate.name_at or alternate.at,
      text = ("the alternate, for %s"):format(alternate.record.values.area) })
  end
  finding.add(found)
end

-- What a rule's check is given to report with, about `about.subject`. `where` lists the waivers that may cover it,
-- and its areas.
local function reporter(rule, about, where)
  return function(what)
    local subject = about.subject
    if is_faulty(what, subject) then return end
    local found = { code = rule.id, level = rule.only_level or what.level or rule.level, message = what.message,
      at = place_of(what, subject), about = name_of(what.on or subject),
      labels = labels_of(what), help = what.help or rule.help, note = what.note, basis = rule.basis }
    if what.fix then found.fix, found.fix_at, found.safe = what.fix.text, what.fix.at, what.fix.safe end
    if rule.status then found.basis = found.basis .. " (" .. rule.status .. ")" end
    local waiver = waivers.find(where, rule, what.on or subject)
    tell(waiver and waivers.apply(waiver, rule, found) or found)
  end
end

-- The steps that a rule of scope "step" looks at.
local function steps_for(rule, recipe)
  if not rule.words then return recipe.steps end
  local list = {}
  for word in next, rule.words do -- in any order: findings are sorted by place
    for _, i in ipairs(chain.places(recipe, word) or {}) do list[#list + 1] = recipe.steps[i] end
  end
  return list
end

-- With a step missing (its name was not known) nothing can be said of the order of the others.
local function on_recipe(rule, recipe, job, where)
  local about = { subject = recipe }
  local report = reporter(rule, about, where)
  if rule.scope == "recipe" and not recipe.incomplete then rule.check(recipe, report, job) end
  if rule.scope == "step" then
    for _, step in ipairs(steps_for(rule, recipe)) do
      about.subject = step
      rule.check(step, report, recipe, job)
    end
  end
end

-- The rules that documents bring, by id and in order; of two with one id the first counts.
local function own_rules(documents)
  local list, by_id = {}, {}
  for _, document in ipairs(documents) do
    for _, own in ipairs(document.record.values.rules or {}) do
      if not by_id[own.rule.id] then
        by_id[own.rule.id] = own.rule
        list[#list + 1] = own.rule
      end
    end
  end
  return list, by_id
end

-- The rules that apply to a document: the built-in ones, some of them in the shop's place, and those it brings
-- besides.
local function rules_for(job, recipe)
  local own, by_id = own_rules { job or recipe, job and recipe }
  if #own == 0 then return built_in(job) end
  local list, placed = {}, {}
  for i, rule in ipairs(built_in(job)) do
    list[i] = by_id[rule.id] or rule
    placed[list[i]] = true
  end
  for _, rule in ipairs(own) do if not placed[rule] then list[#list + 1] = rule end end
  return list
end

local function check_recipe(recipe, job, areas)
  local where = { recipe.waivers, job and job.waivers or {}, areas = areas }
  for _, rule in ipairs(rules_for(job, recipe)) do on_recipe(rule, recipe, job, where) end
end

-- Each recipe of the job once, with the areas it is done in.
local function recipes_of(job)
  local list, seen = {}, {}
  for _, area in ipairs(job.areas) do
    if area.recipe and not seen[area.recipe] then
      seen[area.recipe] = { recipe = area.recipe, areas = {} }
      list[#list + 1] = seen[area.recipe]
    end
    if area.recipe then table.insert(seen[area.recipe].areas, area) end
  end
  return list
end

local function check_whole(job)
  for _, rule in ipairs(rules_for(job)) do
    if rule.scope == "job" then rule.check(job, reporter(rule, { subject = job }, { job.waivers })) end
  end
end

-- The job with an alternate's recipe in the place of its area's; nil and nil if it names none that there is.
local function with_alternate(job, other)
  local areas, changed = {}, nil
  for i, area in ipairs(job.areas) do
    areas[i] = area
    if other.recipe and area.name == other.record.values.area then
      changed = setmetatable({ recipe = other.recipe }, { __index = area })
      areas[i] = changed
    end
  end
  return changed and setmetatable({ areas = areas }, { __index = job }), changed
end

local function check_job(job)
  for _, use in ipairs(recipes_of(job)) do check_recipe(use.recipe, job, use.areas) end
  check_whole(job)
  for _, other in ipairs(job.alternates) do
    local variant, area = with_alternate(job, other)
    alternate = other
    if variant then
      check_recipe(area.recipe, variant, { area })
      check_whole(variant)
    end
    alternate = nil
  end
end

-- The recipes of the job and of its alternates: of those that stand in an alternate alone, with its area.
local function all_recipes_of(job)
  local list, seen = recipes_of(job), {}
  for _, use in ipairs(list) do seen[use.recipe] = true end
  for _, other in ipairs(job.alternates) do
    local _, area = with_alternate(job, other)
    if area and not seen[area.recipe] then
      seen[area.recipe] = true
      list[#list + 1] = { recipe = area.recipe, areas = { area } }
    end
  end
  return list
end

--- The shop's rule of an id in a document that was read, or in a recipe of a job; nil if it brings none.
function rules.own(data, id)
  local documents = { data }
  for _, area in ipairs(data.areas or {}) do documents[#documents + 1] = area.recipe end
  local _, by_id = own_rules(documents)
  return by_id[id]
end

--- Runs every rule that can be checked before there is a schedule.
function rules.run(data)
  told = {}
  if data.word == "recipe" then check_recipe(data) elseif data.word == "job" then check_job(data) else return end
  if data.word == "recipe" and #data.waivers == 0 then return end
  waivers.report_unused(data, rules.all(), data.word == "job" and all_recipes_of(data) or {})
end

local function check_plan(job, facts)
  local plan = require("core.plan_facts").read(job, facts)
  local lists = { job.waivers }
  for _, use in ipairs(recipes_of(job)) do lists[#lists + 1] = use.recipe.waivers end
  for _, rule in ipairs(rules_for(job)) do
    if rule.scope == "plan" then rule.check(plan, reporter(rule, { subject = job }, lists)) end
  end
end

--- Runs the rules of scope "plan" on a scheduled job: facts as lang/script.h hands them over. `number`, if given,
-- is that of the alternate with which it was scheduled.
function rules.run_plan(job, facts, number)
  alternate = number and job.alternates[number]
  check_plan(alternate and with_alternate(job, alternate) or job, facts)
  alternate = nil
  if not number then waivers.report_unused_in_plan(job, rules.all(), recipes_of(job)) end
end

return rules
