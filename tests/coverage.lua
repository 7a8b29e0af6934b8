-- coverage.lua BUILD [PART] - how much of each part the tests have reached, from what gcov says of the files in
-- BUILD. With a part, the lines of it that were never reached.
local build, only = arg[1], arg[2]
local PARTS = { "base", "trade", "model", "lang", "plan", "cost", "report", "cli" }

local function lines_of(command)
  local pipe, list = io.popen(command), {}
  for line in pipe:lines() do list[#list + 1] = line end
  pipe:close()
  return list
end

-- gcov's summary of one source: { lines, reached, branches, taken }.
local function summary(part, data)
  local counts, here = { 0, 0, 0, 0 }, false
  for _, line in ipairs(lines_of(("gcov -n -b '%s' 2>/dev/null"):format(data))) do
    local file = line:match("^File '(.*)'")
    if file then here = file:find("^interp/" .. part .. "/[%w_]+%.c$") ~= nil end
    local share, of = line:match("^Lines executed:([%d.]+)%% of (%d+)")
    if here and share then counts[1], counts[2] = tonumber(of), tonumber(share) * of / 100 end
    share, of = line:match("^Taken at least once:([%d.]+)%% of (%d+)")
    if here and share then counts[3], counts[4] = tonumber(of), tonumber(share) * of / 100 end
  end
  return counts
end

local function data_of(part) return lines_of(("find %s/interp/%s -name '*.gcda' | sort"):format(build, part)) end

local function print_missed(part)
  for _, data in ipairs(data_of(part)) do
    local source
    for _, line in ipairs(lines_of(("gcov -t '%s' 2>/dev/null"):format(data))) do
      source = line:match("^ *-: *0:Source:(.*)") or source
      local number, text = line:match("^ *#####: *(%d+):(.*)")
      if number and source:find("^interp/" .. part .. "/") then print(("%s:%s:%s"):format(source, number, text)) end
    end
  end
end

local function share(of, reached) return of == 0 and 100 or 100 * reached / of end

if only then
  print_missed(only)
else
  print("part      lines  reached   branches  taken")
  for _, part in ipairs(PARTS) do
    local sum = { 0, 0, 0, 0 }
    for _, data in ipairs(data_of(part)) do
      for i, count in ipairs(summary(part, data)) do sum[i] = sum[i] + count end
    end
    print(("%-8s %6d   %5.1f %%     %6d %5.1f %%"):format(part, sum[1], share(sum[1], sum[2]), sum[3], share(sum[3], sum[4])))
  end
end
