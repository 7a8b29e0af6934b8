--- A series of numbers as a small picture in text: a column for each, eight rows, the scale on the left.
local plot = {}

local ROWS = 8

--- The picture of a list of numbers at or above 0; nil for fewer than eight of them.
function plot.columns(series)
  local most = 0
  for _, v in ipairs(series) do
    if type(v) ~= "number" then return nil end
    most = math.max(most, v)
  end
  if #series < ROWS or most <= 0 then return nil end
  local lines = {}
  for row = ROWS, 1, -1 do
    local cells = {}
    for i, v in ipairs(series) do cells[i] = v / most * ROWS >= row - 0.5 and "#" or " " end
    lines[#lines + 1] = (("%8.4g |%s"):format(most * row / ROWS, table.concat(cells)):gsub(" +$", ""))
  end
  lines[#lines + 1] = "         +" .. ("-"):rep(#series)
  return table.concat(lines, "\n")
end

return plot
