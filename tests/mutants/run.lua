-- run.lua BUILD [SEED [MOST]] - how many mistakes in a sound recipe does validation notice?
--
-- Every shipped method is spoilt in one place at a time: a step dropped, moved or doubled, a field dropped or
-- changed.
-- All such mutants are made, and a seeded choice of MOST of them is validated. The report gives the share that is
-- noticed
-- by kind, and examples of those that pass: some of them are sound recipes still.
local here = arg[0]:match("^(.*)/") or "."
package.path = here .. "/../?.lua"
local files = require "files"
local json = require "json"

local build, seed, most = arg[1], tonumber(arg[2] or 1), tonumber(arg[3] or 2000)
local BATCH, EXAMPLES = 200, 4

-- ---- reading a recipe's text

local WORDS = {}
for word in ("grind hone polish burnish collect clean densify dye stain grout fill patch guard wait check"):gmatch("%a+") do
  WORDS[word] = true
end

-- Fields `name = value` of a table's text that begins at `base`: { name, value, from, till } (till: past the
-- comma).
local function fields_of(inner, base)
  local list, at = {}, 1
  while true do
    local from, after, name = inner:find("([%a_]+)%s*=%s*", at)
    if not from then return list end
    local depth, i, quoted = 0, after + 1, false
    while i <= #inner do
      local c = inner:sub(i, i)
      if c == '"' then quoted = not quoted
      elseif not quoted and c:find("[({]") then depth = depth + 1
      elseif not quoted and c:find("[)}]") then depth = depth - 1
      elseif not quoted and c == "," and depth == 0 then break end
      i = i + 1
    end
    local value = inner:sub(after + 1, i - 1):gsub("%s+$", "")
    list[#list + 1] = { name = name, value = value, from = base + from - 1, value_at = base + after,
      till = base + i }
    at = i + 1
  end
end

local function steps_of(text)
  local list, at = {}, 1
  while true do
    local from, brace, word, name = text:find('(%l+)%s*"([^"\n]*)"%s*{', at)
    if not from then return list end
    if WORDS[word] then
      local body = text:match("^%b{}", brace)
      local till = brace + #body
      list[#list + 1] = { word = word, name = name, from = from, till = till,
        fields = fields_of(body:sub(2, -2), brace + 1) }
      at = till
    else
      at = brace + 1
    end
  end
end

local function head_fields(text)
  local list = {}
  for _, name in ipairs { "finish", "suits" } do
    local _, brace = text:find(name .. "%s*=%s*{")
    if brace then
      local body = text:match("^%b{}", brace)
      for _, field in ipairs(fields_of(body:sub(2, -2), brace + 1)) do list[#list + 1] = field end
    end
  end
  return list
end

-- ---- making mutants

local function cut(text, from, till, put) return text:sub(1, from - 1) .. (put or "") .. text:sub(till) end

-- A step with the comma and the blanks after it.
local function whole(text, step) return step.from, text:match("^%s*,?()", step.till) end

local SWAPS = {
  bond = { "metal", "transitional", "resin", "fibre" },
  with = { "water", "vacuum", "neutral cleaner", "lithium silicate", "sodium silicate", "acetone dye", "water dye",
    "stain guard" },
  measure = { "gloss 60", "mohs hardness", "roughness" }, keep = { "wet", "still" },
  exposure = { "cream", "fine aggregate", "coarse aggregate" },
    appearance = { "flat", "satin", "polished", "highly polished" },
}
local FACTORS = { 0.1, 0.25, 0.5, 2, 4, 10 }
local UNITS = { { " min\"", " h\"" }, { " h\"", " min\"" }, { " in\"", " ft\"" }, { "sqft/gal", "sqft/qt" },
  { "ft/min", "in/min" } }

-- "1 per 500 sqft" has its figure behind the `per`.
local function first_figure(field) return field.name == "readings" and field.value:find("per") or 1 end

local function scaled(number, factor)
  local value = tonumber(number) * factor
  return value == math.floor(value) and ("%d"):format(value) or ("%.4g"):format(value)
end

local function changes_of(field)
  local list, value = {}, field.value
  local function add(kind, new) if new and new ~= value then list[#list + 1] = { kind = kind, value = new } end end
  if value == "true" then add("flag off: " .. field.name, "false") elseif value == "false" then
    add("flag on: " .. field.name, "true") end
  for _, other in ipairs(SWAPS[field.name] or {}) do add("other word: " .. field.name, '"' .. other .. '"') end
  if field.name ~= "says" and field.name ~= "care" and field.name ~= "revision" and not SWAPS[field.name]
    and value:find("%d") then
    for _, factor in ipairs(FACTORS) do
      local from = first_figure(field)
      add(("figure x%g: %s"):format(factor, field.name),
        value:sub(1, from - 1) .. value:sub(from):gsub("%f[%d.]%d+%.?%d*", function(n)
        return scaled(n, factor)
      end, value:find("^param") and 1 or nil))
    end
    for _, unit in ipairs(UNITS) do
      if value:find(unit[1], 1, true) then
        add("other unit: " .. field.name, (value:gsub(unit[1]:gsub("%p", "%%%0"), (unit[2]:gsub("%%", "%%%%")))))
      end
    end
    local low, high = value:match('^between%((.-), (.-)%)$')
    if low then add("window reversed: " .. field.name, ("between(%s, %s)"):format(high, low)) end
  end
  return list
end

local function field_mutants(text, list, owner, add)
  for _, field in ipairs(list) do
    add("field dropped: " .. field.name, cut(text, field.from, math.min(field.till, #text)),
      owner .. " without " .. field.name)
    for _, change in ipairs(changes_of(field)) do
      add(change.kind, cut(text, field.value_at, field.value_at + #field.value, change.value),
        ("%s: %s = %s"):format(owner, field.name, change.value))
    end
  end
end

local function step_mutants(text, steps, add)
  for i, step in ipairs(steps) do
    local from, till = whole(text, step)
    local body, next = text:sub(step.from, step.till - 1), steps[i + 1]
    add("step dropped: " .. step.word, cut(text, from, till), ("%s %q dropped"):format(step.word, step.name))
    add("step doubled: " .. step.word, cut(text, step.from, step.from, (body:gsub('"([^"\n]*)"', '"%1 again"',
      1)) .. ", "),
      ("%s %q twice"):format(step.word, step.name))
    if next then
      add(("steps swapped: %s, %s"):format(step.word, next.word),
        text:sub(1, step.from - 1) .. text:sub(next.from, next.till - 1)
        .. text:sub(step.till, next.from - 1) .. body .. text:sub(next.till),
          ("%q and %q swapped"):format(step.name, next.name))
    end
    field_mutants(text, step.fields, ("%s %q"):format(step.word, step.name), add)
  end
end

local function mutants_of(name, list)
  local text = files.read("recipes/methods/" .. name)
  local function add(kind, mutant, says)
    list[#list + 1] = { kind = kind, text = mutant, says = name .. ": " .. says }
  end
  step_mutants(text, steps_of(text), add)
  field_mutants(text, head_fields(text), "head", add)
end

-- Fisher-Yates with a plain generator (Numerical Recipes' constants), so that the choice is the same everywhere.
local function shuffle(list)
  local state = seed
  for i = #list, 2, -1 do
    state = (state * 1664525 + 1013904223) % 4294967296
    local k = state // 65536 % i + 1
    list[i], list[k] = list[k], list[i]
  end
end

-- ---- validating

local function validate(folder, batch)
  local paths = {}
  for n, mutant in ipairs(batch) do
    paths[n] = ("'%s/methods/mutant_%03d.lua'"):format(folder, n)
    files.write(paths[n]:sub(2, -2), mutant.text)
  end
  local pipe = io.popen(("'%s/gritwork' validate --json --seconds=300 --root='%s' %s"):format(
    build, folder, table.concat(paths, " ")))
  local results = json.read(pipe:read("a")).files
  pipe:close()
  for n, mutant in ipairs(batch) do
    for _, finding in ipairs(results[n].findings) do
      if finding.level ~= "note" then mutant.noticed = finding.code end
    end
  end
end

local function run_all(all)
  local folder = build .. "/mutants"
  os.execute(("rm -rf '%s' && mkdir -p '%s' && cp -r recipes/methods '%s/'"):format(folder, folder, folder))
  for first = 1, #all, BATCH do validate(folder, table.move(all, first, math.min(first + BATCH - 1, #all), 1,
    {})) end
end

-- ---- the report

local function tally(all)
  local kinds, names, noticed = {}, {}, 0
  for _, mutant in ipairs(all) do
    local kind = kinds[mutant.kind]
    if not kind then
      kind = { made = 0, noticed = 0, passed = {} }
      kinds[mutant.kind] = kind
      names[#names + 1] = mutant.kind
    end
    kind.made = kind.made + 1
    if mutant.noticed then
      kind.noticed, noticed = kind.noticed + 1, noticed + 1
    else
      table.insert(kind.passed, mutant.says)
    end
  end
  table.sort(names)
  return kinds, names, noticed
end

local function report(all)
  local kinds, names, noticed = tally(all)
  for _, name in ipairs(names) do
    local kind = kinds[name]
    print(("%4d of %4d noticed  %s"):format(kind.noticed, kind.made, name))
    for i = 1, math.min(EXAMPLES, #kind.passed) do print("                        passes: " .. kind.passed[i]) end
  end
  print(("mutants: %d of %d noticed (%.1f %%)"):format(noticed, #all, 100 * noticed / #all))
end

local all = {}
local pipe = io.popen("ls recipes/methods")
for name in pipe:lines() do if name:find("%.lua$") then mutants_of(name, all) end end
pipe:close()
local made = #all
shuffle(all)
for i = #all, most + 1, -1 do all[i] = nil end
run_all(all)
print(("%d mutants of the shipped methods, %d of them validated (seed %d)"):format(made, #all, seed))
report(all)
os.exit(#all >= math.min(most, 1000))
