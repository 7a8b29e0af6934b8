--- The documents whose SARIF logs are held against schemas: against ours in every run of the tests, against the
-- published one by `make test-documents`.
local logs = {}

logs.SOUND = [[
return recipe "sound" {
  hone "100" { grit = 100, bond = "resin", passes = 4 },
  hone "200" { grit = 200, bond = "resin", passes = 4 },
}
]]

logs.STEP = [[
return recipe "one finding" {
  hone "30" { grit = 30, bond = "resin", passes = 4 },
  hone "200" { grit = 200, bond = "resin", passes = 4 },
}
]]

logs.BROKEN = [[
return recipe "case" {
  hone "30" { grit = 30, bond = "resin", passes = 4 },
  hone "200" { grit = 200, bond = "resin", passes = 4 },
  hone "400" { grit = 400, bond = "resin" passes = 4 },
}
]]

logs.WAIVED = [[
return recipe "waived" {
  waive "grit-step" { step = "200", reason = "the mock-up showed no scratch", by = "A. Foreman" },
  hone "30" { grit = 30, bond = "resin", passes = 4 },
  hone "200" { grit = 200, bond = "resin", passes = 4 },
}
]]

logs.ACKNOWLEDGED = [[
return recipe "acknowledged" {
  finish = { slip = "interior wet" },
  waive "slip-read" { reason = "the owner reads it", by = "A. Foreman" },
  hone "100" { grit = 100, bond = "resin", passes = 4 },
}
]]

logs.PARENT = [[
return recipe "parent" {
  hone "100" { grit = 100, bond = "resin", passes = 4 },
  hone "200" { grit = 200, bond = "resin", passes = 4 },
}
]]

-- A finding in one file with a label in another.
logs.CHILD = [[
return tailor(require "parent", "child") {
  after "100" { hone "500" { grit = 500, bond = "resin", passes = 4 } },
}
]]

-- Two labels: the two steps that disagree, and more.
logs.TWICE = [[
return recipe "twice" {
  hone "a" { grit = 100, bond = "resin" },
  hone "a" { grit = 200, bond = "resin" },
  hone "a" { grit = 400, bond = "resin" },
}
]]

logs.JOB = [[
local house = recipe "house" {
  densify "densify" { with = "lithium silicate", spread = "500 sqft/gal", dry = "1 h" },
}
return job "job" {
  units = "us", start = "2027-03-01 07:00", shifts = { day = { hours = "7:00 to 16:00" } },
  climate = { air = "75 F", humidity = "80 %", surface = "70 F" },
  crew "operator" { count = 1, skills = { "any" }, shift = "day" },
  machine "planetary" { does = { "hone", "edges" }, width = "28 in" },
  area "hall" { recipe = house, length = "20 ft", width = "20 ft" },
}
]]

local FILES = {
  [".gritwork"] = "", ["sound.lua"] = logs.SOUND, ["step.lua"] = logs.STEP, ["a b/broken.lua"] = logs.BROKEN,
  ["waived.lua"] = logs.WAIVED, ["acknowledged.lua"] = logs.ACKNOWLEDGED, ["parent.lua"] = logs.PARENT,
  ["child.lua"] = logs.CHILD, ["twice.lua"] = logs.TWICE, ["job.lua"] = logs.JOB,
  ["words.lua"] = 'return recipe "x" { hone "200" { grit = 200, bond = "resn" } }\n',
  ["wide.lua"] = 'return recipe "x" { --[[ \u{1F600}\u{4E2D} ]] hne "200" { grit = 200 } }\n',
  ["Böden 中.lua"] = 'return recipe "Böden" { hne "200" { grit = 200 } }\n',
  ["bytes.lua"] = 'return recipe "\xff\xfe" { hone "\xff" { grit = 0 } }\n',
  ["forever.lua"] = "while true do end\n",
}

--- What is tried: a name, and the arguments of `validate --sarif`.
logs.CASES = {
  { "no findings", "sound.lua" },
  { "an error", "step.lua" },
  { "a label in another file", "child.lua" },
  { "a label in the same file", "twice.lua" },
  { "several labels, and a job", "job.lua" },
  { "broken source, with fixes", "'a b/broken.lua'" },
  { "a fix", "words.lua" },
  { "a waived finding", "waived.lua" },
  { "an acknowledged one", "acknowledged.lua" },
  { "wide characters", "wide.lua" },
  { "a name that is not ASCII", "'Böden 中.lua'" },
  { "bytes that are no text", "bytes.lua" },
  { "a file that is not there", "missing.lua" },
  { "a script without end", "forever.lua" },
  { "many files, some twice", "sound.lua step.lua 'a b/broken.lua' child.lua parent.lua step.lua missing.lua" },
  { "an absolute name", '"$PWD/step.lua"' },
}

--- Writes the documents into the folder of a shell.
function logs.write(sh)
  for name, text in pairs(FILES) do sh:write(name, text) end
end

return logs
