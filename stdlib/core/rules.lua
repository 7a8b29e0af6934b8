--- Rules: what a sound recipe or job keeps to. Built-in ones are files in rules/; a document can bring its own.
--
-- A rule is { id, level, scope = "step" | "recipe" | "job", says, basis, check = function(subject, report, whole) }.
-- It calls report { at =, message =, labels =, help =, note = } for each thing that breaks it.
local finding = require "core.finding"
local stdlib = require "native.stdlib"

local rules = {}

local function built_in()
  if not rules.list then
    rules.list = {}
    for _, name in ipairs(stdlib.names("rules")) do
      for _, rule in ipairs(require("rules." .. name)) do rules.list[#rules.list + 1] = rule end
    end
  end
  return rules.list
end

local function reporter(rule)
  return function(what)
    what.code, what.basis = rule.id, what.basis or rule.basis
    finding[what.level or rule.level](what)
  end
end

local function apply(rule, recipe)
  local report = reporter(rule)
  -- With a step missing (its name was not known) nothing can be said of the order of the others.
  if rule.scope == "recipe" and not recipe.incomplete then rule.check(recipe, report) end
  if rule.scope == "step" then
    for _, step in ipairs(recipe.steps) do rule.check(step, report, recipe) end
  end
end

local function own_rules(data)
  return data.record.values.rules or {}
end

local function on_recipe(recipe, more)
  for _, rule in ipairs(built_in()) do apply(rule, recipe) end
  for _, list in ipairs { own_rules(recipe), more } do
    for _, rule in ipairs(list) do apply(rule.rule, recipe) end
  end
end

local function on_job(job)
  local seen, mine = {}, own_rules(job)
  for _, area in ipairs(job.areas) do
    local recipe = area.recipe
    if recipe and not seen[recipe] then
      seen[recipe] = true
      on_recipe(recipe, mine)
    end
  end
  for _, rule in ipairs(built_in()) do
    if rule.scope == "job" then rule.check(job, reporter(rule)) end
  end
  for _, rule in ipairs(mine) do
    if rule.rule.scope == "job" then rule.rule.check(job, reporter(rule.rule)) end
  end
end

--- Runs every rule that applies to a document.
function rules.run(data)
  if data.word == "recipe" then on_recipe(data, {}) elseif data.word == "job" then on_job(data) end
end

return rules
