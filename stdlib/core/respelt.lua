--- What a text that cannot be read was meant as: ranges, hours and dates as some write them. Each function answers
-- the text as it should be written, or nil where it may mean two things; whoever asks makes sure that it can be
-- read.
local quantity = require "native.quantity"

local respelt = {}

local RANGES = { "^%s*([%d.,]+)%s*%-%s*([%d.,]+)%s*(.-)%s*$", "^%s*([%d.,]+)%s*\u{2013}%s*([%d.,]+)%s*(.-)%s*$",
  "^%s*([%d.,]+)%s+to%s+([%d.,]+)%s*(.-)%s*$" }

-- Two ends with what stands behind both of them.
local function ends(text)
  for _, range in ipairs(RANGES) do
    local low, high, unit = text:match(range)
    if low and not unit:find('["\\%d]') then return low, high, unit end
  end
  return nil
end

local BOUNDS = { -- what a text begins or ends with, and the window that it means
  { "^%s*>=?%s*(.-)%s*$", "at_least" }, { "^%s*\u{2265}%s*(.-)%s*$", "at_least" }, { "^%s*(.-)%s*%+%s*$", "at_least" },
  { "^%s*min%.?i?m?u?m?%s+(.-)%s*$", "at_least" }, { "^%s*at least%s+(.-)%s*$", "at_least" },
  { "^%s*(.-)%s+or more%s*$", "at_least" }, { "^%s*<=?%s*(.-)%s*$", "at_most" },
  { "^%s*\u{2264}%s*(.-)%s*$", "at_most" }, { "^%s*max%.?i?m?u?m?%s+(.-)%s*$", "at_most" },
  { "^%s*at most%s+(.-)%s*$", "at_most" }, { "^%s*up to%s+(.-)%s*$", "at_most" },
  { "^%s*(.-)%s+or less%s*$", "at_most" },
}

local function bound(text)
  for _, row in ipairs(BOUNDS) do
    local limit = text:lower():match(row[1])
    if limit then return row[2], limit end
  end
  return nil
end

--- "3-6" as the window between(3, 6), "45+" as at_least(45).
function respelt.numbers(text)
  local low, high, unit = ends(text)
  if low then
    low, high = tonumber(low), tonumber(high)
    return low and high and unit == "" and low < high and ("between(%g, %g)"):format(low, high) or nil
  end
  local window, limit = bound(text)
  return window and tonumber(limit) and ("%s(%g)"):format(window, tonumber(limit)) or nil
end

--- "25 to 45 min" as the window between("25 min", "45 min"), "28 d or more" as at_least("28 d"). slot: metric,
-- currency, as in core.types.
function respelt.range(text, slot)
  local function read(written)
    local q = quantity.read(written, slot.metric, slot.currency)
    return q and q:kind() ~= "plain number" and q
  end
  local low, high, unit = ends(text)
  if low then
    local a, b = read(low .. " " .. unit), read(high .. " " .. unit)
    return a and b and a < b and ('between("%s %s", "%s %s")'):format(low, unit, high, unit) or nil
  end
  local window, limit = bound(text)
  return window and not limit:find('["\\]') and read(limit) and ('%s("%s")'):format(window, limit) or nil
end

-- A time of day on the 24-hour clock: "7 am" is 07:00. "7" alone may be in either half of the day.
local function time(text)
  local hours, minutes, half = text:lower():match("^(%d%d?):?(%d*)%s*([ap]?)%.?m?%.?$")
  if not hours or (minutes ~= "" and #minutes ~= 2) or (half == "" and minutes == "") then return nil end
  hours = tonumber(hours)
  if half ~= "" then
    if hours < 1 or hours > 12 then return nil end
    hours = hours % 12 + (half == "p" and 12 or 0)
  end
  return ("%02d:%s"):format(hours, minutes ~= "" and minutes or "00")
end

local BETWEEN = { "^%s*(.-)%s+to%s+(.-)%s*$", "^%s*(.-)%s*%-%s*(.-)%s*$", "^%s*(.-)%s*\u{2013}%s*(.-)%s*$" }

--- "7 am - 4 pm" as "07:00 to 16:00".
function respelt.hours(text)
  for _, between in ipairs(BETWEEN) do
    local first, last = text:match(between)
    local from, till = first and time(first), last and time(last)
    if from and till then return from .. " to " .. till end
  end
  return nil
end

local MONTHS = { "january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
  "november", "december" }

local function month_of(name)
  for i, month in ipairs(MONTHS) do
    if #name >= 3 and month:sub(1, #name) == name:lower() then return i end
  end
  return nil
end

--- "March 1, 2027" or "2027/3/1" as "2027-03-01"; not "3/1/2027", which is a day of March or of January.
function respelt.date(text)
  local year, month, day = text:match("^%s*(%d%d%d%d)[-/. ](%d%d?)[-/. ](%d%d?)%s*$")
  if not year then
    local name
    name, day, year = text:match("^%s*(%a+)%.?%s+(%d%d?),?%s+(%d%d%d%d)%s*$")
    if not name then day, name, year = text:match("^%s*(%d%d?)%.?%s+(%a+)%.?%s+(%d%d%d%d)%s*$") end
    month = name and month_of(name)
  end
  return month and ("%04d-%02d-%02d"):format(tonumber(year), tonumber(month), tonumber(day))
end

--- "March 1, 2027 7 am" as "2027-03-01 07:00".
function respelt.instant(text)
  local day, clock = text:match("^%s*(.-)[%sT]+(%d%d?:?%d*%s*[aApP]?%.?[mM]?%.?)%s*$")
  local date, hour = day and respelt.date(day), clock and time(clock)
  return date and hour and date .. " " .. hour
end

return respelt
