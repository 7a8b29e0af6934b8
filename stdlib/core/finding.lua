--- Findings: what is wrong with a document, where, and what would be right.
local native = require "native.finding"

local finding = { near = native.near, within = native.within, errors = native.errors, mark = native.mark, take = native.take }

--- Reports at a level: code, at (a place), message; optional help, note, basis, labels = { { at, text } }, fix, safe.
local function report(level, what)
  what.level = level
  native.add(what)
end

--- The same with `level` in it: "error", "warning" or "note".
function finding.add(what) native.add(what) end

function finding.error(what) report("error", what) end
function finding.warning(what) report("warning", what) end

--- "did you mean `hone`?" for a name among names, or nil when nothing is near.
function finding.did_you_mean(name, names)
  local near = { native.near(name, names) }
  if #near == 0 then return nil end
  for i, word in ipairs(near) do near[i] = "`" .. word .. "`" end
  return "did you mean " .. table.concat(near, " or ") .. "?"
end

--- Up to `most` names as a list for people: "cream, fine aggregate, coarse aggregate".
function finding.choices(names, most)
  most = most or 12
  if #names <= most then return table.concat(names, ", ") end
  return table.concat(names, ", ", 1, most) .. ", ..."
end

return finding
