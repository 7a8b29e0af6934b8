--- Case files: small scripts, and under their lines the findings that each must give.
--
--   ==== recipe: a bare number has no unit
--   hone "200" { grit = 200, bond = "resin", overlap = 3 },
--   --^ error[unit] 52-53: `overlap` of hone "200" needs ...
--   --  the text goes on here
--
-- The lines of an expectation are no part of the script. `script` stands as written; `recipe`, `tailored`, `job`,
-- `prices` and `reckoning` are put into a frame. `---- name.lua` begins a further file, which the script may
-- require.
local cases = {}

local JOB = [[
local house = recipe "house" { hone "100" { grit = 100, bond = "resin", passes = 4 } }
return job "case" {
units = "us", start = "2027-03-01 07:00", shifts = { day = { hours = "7:00 to 16:00" } },
crew "operator" { count = 2, skills = { "any" }, shift = "day" },
machine "planetary" { does = { "hone", "edges" }, width = "28 in" },
prices = prices "book" { labour = { operator = "$30/h" }, machines = { planetary = { hour = "$20/h" } },
  tools = { ["resin 100"] = { price = "$95", life = "9000 sqft/set" } } },
]]

local NEAR = "local function near(got, want, within) assert(math.abs(got - want) <= within, "
  .. [[("got %.9g, want %.9g"):format(got, want)]] .. ") end\n"

--- What stands before and after a script of each form. The lines before are not counted in places.
cases.frames = {
  script = { "", "" },
  reckoning = { NEAR, 'return recipe "case" { hone "100" { grit = 100, bond = "resin", passes = 4 } }\n' },
  recipe = { 'return recipe "case" {\n', "}\n" },
  tailored = { 'local parent = recipe "parent" { revision = "1",\n'
    .. 'hone "100" { grit = 100, bond = "resin", passes = 4 },\n'
    .. 'hone "200" { grit = 200, bond = "resin", passes = 4 },\nclean "wash" { with = "water", dry = "1 h" } }\n'
    .. 'return tailor(parent, "case") {\n', "}\n" },
  job = { JOB, 'area "hall" { recipe = house, length = "20 ft", width = "20 ft" },\n}\n' },
  prices = { 'return prices "case" {\n', "}\n" },
}

local function lines_of(text)
  local count = 0
  for _ in text:gmatch("\n") do count = count + 1 end
  return count
end

local function new_file(name, above) return { name = name, lines = {}, above = above, wants = {} } end

local function begin_case(list, topic, header, number)
  local form, title = header:match("^====%s*(%l+):%s*(.+)$")
  assert(form and cases.frames[form], ("%s:%d: no form in `%s`"):format(topic, number, header))
  local case = { topic = topic, title = title, form = form, line = number, header = header }
  case.files = { new_file(nil, lines_of(cases.frames[form][1])) }
  list[#list + 1] = case
  return case
end

local function take_expectation(file, line)
  local level, code, place, text = line:match("^%s*%-%-%^ (%l+)%[([%l%d-]+)%] ([%d:%-]+): (.*)$")
  assert(level, "not an expectation: " .. line)
  file.wants[#file.wants + 1] = { line = #file.lines, level = level, code = code, place = place, text = text }
end

--- The cases of a topic's text, in order.
function cases.read(topic, text)
  local list, case, file, number, comment = {}, nil, nil, 0, {}
  for line in text:gmatch("([^\n]*)\n") do
    number = number + 1
    if line:find("^==== ") then
      case = begin_case(list, topic, line, number)
      file = case.files[1]
    elseif not case then
      comment[#comment + 1] = line
    elseif line:find("^%-%-%-%- ") then
      file = new_file(line:match("^%-%-%-%- (%S+)$"), 0)
      case.files[#case.files + 1] = file
    elseif line:find("^%s*%-%-%^ ") then
      take_expectation(file, line)
    elseif line:find("^%-%-  ") and #file.wants > 0 and file.wants[#file.wants].line == #file.lines then
      local want = file.wants[#file.wants]
      want.text = want.text .. " " .. line:match("^%-%-%s*(.*)$")
    else
      file.lines[#file.lines + 1] = line
    end
  end
  return list, comment
end

--- The text of one of a case's files as it is given to gritwork.
function cases.script(case, file)
  while file.lines[#file.lines] == "" do table.remove(file.lines) end
  local body = table.concat(file.lines, "\n") .. "\n"
  local frame = file.name and cases.frames.script or cases.frames[case.form]
  return frame[1] .. body .. frame[2]
end

local function folded(text)
  local out, line = {}, ""
  for word in text:gmatch("%S+") do
    if #line + 1 + #word > 112 then
      out[#out + 1] = line
      line = "-- "
    end
    line = line == "" and word or line .. " " .. word
  end
  out[#out + 1] = line
  return table.concat(out, "\n")
end

local function written(want)
  return folded(("--^ %s[%s] %s: %s"):format(want.level, want.code, want.place, want.text))
end

--- The case file again, with the expectations that stand in `file.wants`.
function cases.write(list, comment)
  local out = { table.concat(comment, "\n") }
  for _, case in ipairs(list) do
    out[#out + 1] = case.header
    for _, file in ipairs(case.files) do
      if file.name then out[#out + 1] = "---- " .. file.name end
      for n = 0, #file.lines do
        if n > 0 then out[#out + 1] = file.lines[n] end
        for _, want in ipairs(file.wants) do if want.line == n then out[#out + 1] = written(want) end end
      end
    end
    out[#out + 1] = ""
  end
  return table.concat(out, "\n")
end

return cases
