--- Runs a shop's own check function on views that it cannot change.
local finding = require "core.finding"
local object = require "core.object"
local value = require "core.value"

local view = object.class("view", {
  read = function(data, key)
    if key == "word" or key == "name" then return data.of[key] end
    if key == "steps" then return data.steps end
    return data.of.record.values[key]
  end,
})

local function view_of(subject)
  local data = { of = subject }
  if subject.steps then
    data.steps = {}
    for i, step in ipairs(subject.steps) do data.steps[i] = view_of(step) end
  end
  return object.new(view, data)
end

--- check(view, report) of the script as check(subject, report) of the engine.
return function(check, from)
  return function(subject, report)
    local function say(what)
      if type(what) == "string" then what = { message = what } end
      local plain = object.is_plain(what)
      if value.is_unknown(what) or plain and value.is_unknown(what.message) then return end
      if not plain or type(what.message) ~= "string" then
        finding.error { code = "rule", at = from.name_at, message = "a rule's report needs { message = ... }" }
        return
      end
      local target = what.step and object.data(what.step, view)
      report { message = what.message, help = type(what.help) == "string" and what.help or nil,
        on = target and target.of or subject, field = type(what.field) == "string" and what.field or nil }
    end
    check(view_of(subject), say)
  end
end
