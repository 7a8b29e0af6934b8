--- Documents: recipes, jobs, price books. A document is read as a whole once its { ... } is known.
local finding = require "core.finding"
local object = require "core.object"
local record = require "core.record"
local value = require "core.value"
local words = require "core.words"

local document = {}

--- One class for all documents; data.word tells which.
document.class = object.class("document", {
  read = function(data, key)
    if key == "name" then return data.name end
    return nil
  end,
})

--- "hone "200"": how messages call a step or part.
function document.label(data) return data.word .. ' "' .. data.name .. '"' end

local function unfinished(data, at)
  finding.error { code = "form", at = at,
    message = ('`%s "%s"` has no { ... } after it'):format(data.word, data.name) }
end

local function misplaced(item, class, owner, wanted)
  local data = object.data(item.value)
  local help = "only " .. wanted .. " can"
  if data and data.class == words.step and class == words.override then
    help = ('say where: after "..." { %s { ... } }, or before'):format(document.label(data))
  end
  finding.error { code = "form", at = item.at,
    message = ("%s cannot stand in %s"):format(object.describe(item.value), owner), help = help }
end

-- Walks lists within lists, so that a helper function may give several steps at once.
local function flatten(items, class, owner, wanted, result, depth)
  for _, item in ipairs(items) do
    local v = item.value
    local data = object.data(v)
    if data and data.class == class then result[#result + 1] = data
    elseif data and data.class == words.waiver then table.insert(result.waivers, data)
    elseif data and data.class == words.pending then
      unfinished(data, data.at)
      result.incomplete = true
    elseif value.is_unknown(v) then result.incomplete = true
    elseif object.is_plain(v) and depth < 16 then
      flatten(record.raw(v, item.at).items, class, owner, wanted, result, depth + 1)
    else
      misplaced(item, class, owner, wanted)
      result.incomplete = true
    end
  end
  return result
end

--- The objects of one class among the unnamed entries of a raw record, in order; waivers stand in a list of their
-- own, `waivers`. Anything else is reported, and the list marked `incomplete`.
function document.items(raw, class, owner, wanted)
  return flatten(raw.items, class, owner, wanted, { waivers = {} }, 0)
end

--- Two entries may not share a name: the name is how the others speak of them.
function document.refuse_twins(list, what)
  local seen = {}
  for _, data in ipairs(list) do
    local first = seen[data.name]
    if first then
      finding.error { code = "name-twice", at = data.name_at ~= 0 and data.name_at or data.at,
        message = ("two %s are called `%s`"):format(what, data.name),
        labels = { { at = first.name_at ~= 0 and first.name_at or first.at, text = "the first one" } },
        help = "give each a name of its own" }
    else
      seen[data.name] = data
    end
  end
end

return document
