--- Hours, dates and instants from the texts that they are written as; nil for a text that is none.
local clock = {}

local function minute_of(hours, minutes)
  hours, minutes = tonumber(hours), tonumber(minutes)
  if hours > 24 or minutes > 59 or (hours == 24 and minutes > 0) then return nil end
  return hours * 60 + minutes
end

--- "22:00 to 06:00" as { from, till } in minutes of the day; past midnight where the end is not after the start.
function clock.hours(text)
  local h1, m1, h2, m2 = text:match("^(%d%d?):(%d%d)%s+to%s+(%d%d?):(%d%d)$")
  local from, till = h1 and minute_of(h1, m1), h2 and minute_of(h2, m2)
  if not from or not till or from == 1440 then return nil end
  return { from = from, till = till > from and till or till + 1440 }
end

--- The years that a date may have: what is late in the last one still ends in a year of four digits.
clock.FIRST_YEAR, clock.LAST_YEAR = 1970, 2999

local MONTH_DAYS = { 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31 }

local function is_date(y, m, d)
  if y < clock.FIRST_YEAR or y > clock.LAST_YEAR or m < 1 or m > 12 then return false end
  local leap = m == 2 and (y % 4 == 0 and y % 100 ~= 0 or y % 400 == 0)
  return d >= 1 and d <= MONTH_DAYS[m] + (leap and 1 or 0)
end

--- "2027-03-01" as { year, month, day }.
function clock.date(text)
  local y, m, d = text:match("^(%d%d%d%d)-(%d%d)-(%d%d)$")
  if not y then return nil end
  y, m, d = tonumber(y), tonumber(m), tonumber(d)
  return is_date(y, m, d) and { year = y, month = m, day = d } or nil
end

--- "2027-03-01 18:00" as { year, month, day, minute }.
function clock.instant(text)
  local day, hours, minutes = text:match("^(%S+)%s+(%d%d?):(%d%d)$")
  local date, minute = day and clock.date(day), hours and minute_of(hours, minutes)
  if not date or not minute then return nil end
  date.minute = minute
  return date
end

return clock
