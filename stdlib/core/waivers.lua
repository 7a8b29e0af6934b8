--- Waivers: somebody answers for breaking a rule, here and for a reason.
--
-- A finding that is waived becomes a note that names the reason and the person. A rule that a regulation gives can
-- be acknowledged, no more: its finding stays a warning. Neither carries a fix: somebody wants it as it is.
local document = require "core.document"
local edit = require "native.edit"
local finding = require "core.finding"
local record = require "core.record"
local types = require "core.types"

local waivers = {}

waivers.fields = {
  { "step", types.text("a step's name"), says = "only at this step", example = '"cut 40"' },
  { "area", types.text("an area's name"), says = "only in this area of a job", example = '"lobby"' },
  { "reason", types.text(), says = "why the rule may be broken here", required = true,
    example = '"the mock-up showed no scratch"' },
  { "by", types.text("a name"), says = "who answers for it", required = true, example = '"shop foreman"' },
}

--- Reads the waivers among the entries of a document: { rule, step, area, reason, by, at, name_at, used, late }.
function waivers.read(list, metric)
  local read = {}
  for _, data in ipairs(list or {}) do
    local waiver = { rule = data.name, at = data.at, name_at = data.name_at, call_at = data.call_at, word = "waive",
      name = data.name }
    waiver.record = record.read(data.raw, waivers.fields, { owner = document.label(data),
      at = data.name_at ~= 0 and data.name_at or data.at, metric = metric })
    for _, field in ipairs(waivers.fields) do waiver[field[1]] = waiver.record.values[field[1]] end
    if not waiver.record.faults then read[#read + 1] = waiver end
  end
  return read
end

local function place_of(waiver) return waiver.name_at ~= 0 and waiver.name_at or waiver.at end

local function only(areas, name)
  return areas ~= nil and #areas == 1 and areas[1].name == name
end

local function covers(waiver, rule, on, areas)
  if waiver.rule ~= rule.id then return false end
  if waiver.step and not (on.definition and on.name == waiver.step) then return false end
  local area = on.word == "area" and on.name or on.in_area
  return not waiver.area or area == waiver.area or only(areas, waiver.area)
end

--- The waiver that covers a finding of a rule at a step, part or document; nil if none does.
function waivers.find(where, rule, on)
  for _, list in ipairs(where) do
    for _, waiver in ipairs(list) do
      if covers(waiver, rule, on, where.areas) then return waiver end
    end
  end
  return nil
end

--- The finding as it stands once it is waived.
function waivers.apply(waiver, rule, found)
  waiver.used = true
  local why = ("because %s (by %s)"):format(waiver.reason, waiver.by)
  local told = { code = found.code, at = found.at, about = found.about, labels = found.labels, basis = found.basis,
    waiver = { at = place_of(waiver), reason = waiver.reason, by = waiver.by, level = found.level } }
  if rule.law then
    told.level, told.message, told.help = "warning", found.message, found.help
    told.note = "acknowledged: " .. why .. "; the rule stands all the same"
  else
    told.level, told.message = "note", "waived: " .. found.message .. ", " .. why
    told.waiver.message = found.message
  end
  return told
end

local function scope_of(waiver, all, own)
  for _, data in ipairs(own) do if data.name == waiver.rule then return data.rule.scope end end
  for _, rule in ipairs(all) do if rule.id == waiver.rule then return rule.scope end end
  return nil
end

local function unknown_rule(waiver, all, own)
  local names = {}
  for i, rule in ipairs(all) do names[i] = rule.id end
  for _, data in ipairs(own) do names[#names + 1] = data.name end
  local fix, safe = finding.respelling(place_of(waiver), waiver.rule, names)
  finding.error { code = "waiver", at = place_of(waiver), fix = fix, safe = safe,
    message = ("no rule is called `%s`"):format(waiver.rule),
    help = finding.did_you_mean(waiver.rule, names) or "`gritwork words` lists the rules" }
end

local function report(list, all, own, late)
  for _, waiver in ipairs(list) do
    local scope = scope_of(waiver, all, own)
    waiver.late = scope == "plan" -- it may still cover something once there is a schedule
    if not scope then
      if not late then unknown_rule(waiver, all, own) end
    elseif not waiver.used and (scope == "plan") == late then
      local fix_at, fix = edit.without(waiver.call_at)
      finding.warning { code = "waiver-unused", at = place_of(waiver), fix = fix, fix_at = fix_at,
        message = ("the waiver of `%s` covers nothing"):format(waiver.rule),
        help = "take it out, or mend the step or area that it names" }
    end
  end
end

-- In a recipe by itself, rules of jobs and plans have not run.
local function could_run(recipe, all)
  local list = {}
  for _, waiver in ipairs(recipe.waivers) do
    local scope = scope_of(waiver, all, {})
    if scope ~= "job" and scope ~= "plan" then list[#list + 1] = waiver end
  end
  return list
end

local function own_rules(data) return data.record.values.rules or {} end

--- Warns of waivers that covered nothing, and refuses those of rules that are none.
function waivers.report_unused(data, all, uses)
  if data.word == "recipe" then return report(could_run(data, all), all, own_rules(data), false) end
  report(data.waivers, all, own_rules(data), false)
  for _, use in ipairs(uses) do report(use.recipe.waivers, all, own_rules(use.recipe), false) end
end

--- The same for rules of scope "plan", once they have run.
function waivers.report_unused_in_plan(job, all, uses)
  report(job.waivers, all, own_rules(job), true)
  for _, use in ipairs(uses) do report(use.recipe.waivers, all, own_rules(use.recipe), true) end
end

return waivers
