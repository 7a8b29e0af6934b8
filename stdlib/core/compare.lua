--- Comparing two recipes: what was added, dropped, renamed, moved and changed from one to the other.
local document = require "core.document"
local lineage = require "core.lineage"

local compare = {}

-- ---- which step of one is which of the other

-- Steps that began as the same one, else those with the same name.
local function pairs_of(a, b)
  local to_b, taken = {}, {}
  local function pair(same)
    for _, one in ipairs(a.steps) do
      for _, other in ipairs(b.steps) do
        if not to_b[one] and not taken[other] and same(one, other) then to_b[one], taken[other] = other, one end
      end
    end
  end
  pair(function(one, other) return one.root == other.root end)
  pair(function(one, other) return one.name == other.name end)
  return to_b, taken
end

-- The steps of b, among those that a has too, whose order is kept: the longest run of them.
local function kept_in_order(a, b, to_a)
  local place, common = {}, {}
  for i, step in ipairs(a.steps) do place[step] = i end
  for _, step in ipairs(b.steps) do if to_a[step] then common[#common + 1] = step end end
  local length, before, best = {}, {}, nil
  for i, step in ipairs(common) do
    length[i] = 1
    for k = 1, i - 1 do
      if place[to_a[common[k]]] < place[to_a[step]] and length[k] + 1 > length[i] then
        length[i], before[i] = length[k] + 1, k
      end
    end
    if not best or length[i] > length[best] then best = i end
  end
  local kept = {}
  while best do
    kept[common[best]] = true
    best = before[best]
  end
  return kept
end

-- ---- changes: { kind, step, field, was, now, was_at, now_at }

local function place_of(data) return data.name_at ~= 0 and data.name_at or data.at end

local function value_at(node, record, name)
  local inner = node.get(name)
  local at = record.at[name]
  return inner and inner.text() or nil, at and at ~= 0 and at or record.place
end

-- Fields of both, in the order of the first.
local function field_names(fields, more)
  local names, seen = {}, {}
  for _, list in ipairs { fields, more } do
    for _, field in ipairs(list) do
      if not seen[field[1]] then names[#names + 1], seen[field[1]] = field[1], true end
    end
  end
  return names
end

local function add_fields(changes, label, names, a, b)
  for _, name in ipairs(names) do
    local was, was_at = value_at(a.node, a.record, name)
    local now, now_at = value_at(b.node, b.record, name)
    if was ~= now then
      changes[#changes + 1] = { kind = "changed", step = label, field = name, was = was or "not said", now = now or "not said",
        was_at = was_at, now_at = now_at }
    end
  end
end

local function side(data, step)
  return { node = lineage.of_step(data, step), record = step.record }
end

local function step_changes(changes, a, b, one, other, kept)
  local label = document.label(other)
  if one.name ~= other.name then
    changes[#changes + 1] = { kind = "renamed", step = label, was = one.name, now = other.name, was_at = place_of(one),
      now_at = place_of(other) }
  end
  if one.word ~= other.word then
    changes[#changes + 1] = { kind = "changed", step = label, field = "word", was = one.word, now = other.word,
      was_at = one.at, now_at = other.at }
  end
  if not kept[other] then
    changes[#changes + 1] = { kind = "moved", step = label, was_at = place_of(one), now_at = place_of(other) }
  end
  add_fields(changes, label, field_names(one.definition.fields, other.definition.fields), side(a, one), side(b, other))
end

local HEAD = { "finish", "suits" } -- tables of fields in a recipe's head

local function head_changes(changes, a, b)
  local function of(data, name)
    return { node = lineage.of_head(data, name), record = name and data.record.values[name] or data.record }
  end
  add_fields(changes, "the recipe", { "revision", "units", "note" }, of(a), of(b))
  for _, name in ipairs(HEAD) do
    local types = { a.record.values[name], b.record.values[name] }
    if types[1] and types[2] then
      add_fields(changes, name, lineage.head_fields(name), of(a, name), of(b, name))
    end
  end
end

--- The changes that lead from recipe a to recipe b, in the order of b; what was dropped stands where it was. In the
-- same order the steps of both, as { was = label, now = label }.
function compare.recipes(a, b)
  local to_b, to_a = pairs_of(a, b)
  local kept, changes, steps = kept_in_order(a, b, to_a), {}, {}
  head_changes(changes, a, b)
  local next_a = 1
  local function drop_before(one)
    while a.steps[next_a] and a.steps[next_a] ~= one do
      local gone = a.steps[next_a]
      if not to_b[gone] then
        changes[#changes + 1] = { kind = "dropped", step = document.label(gone), was_at = place_of(gone) }
        steps[#steps + 1] = { was = document.label(gone) }
      end
      next_a = next_a + 1
    end
  end
  for _, other in ipairs(b.steps) do
    local one = to_a[other]
    if not one then changes[#changes + 1] = { kind = "added", step = document.label(other), now_at = place_of(other) }
    else
      if kept[other] then drop_before(one) end
      step_changes(changes, a, b, one, other, kept)
    end
    steps[#steps + 1] = { was = one and document.label(one), now = document.label(other) }
  end
  drop_before(nil)
  return changes, steps
end

return compare
