--- Settings of parameters: set = { ["opening passes"] = 8 }, in an area of a job or in a tailored recipe.
local object = require "core.object"
local place = require "native.place"

local settings = {}

--- What a written `set` says: name -> { value, at, key_at }; nil if it is not there or not a table of names.
function settings.read(written)
  if not written or not object.is_plain(written.value) then return nil end
  local read = {}
  for name, v in pairs(written.value) do
    local at, key_at = place.of(written.value, name), place.key(written.value, name)
    read[name] = { value = v, at = at ~= 0 and at or written.at, key_at = key_at ~= 0 and key_at or written.at }
  end
  return next(read) and read or nil
end

--- Settings over others; each remembers the one that it `replaced`.
function settings.over(under, over)
  if not under or not over then return over or under end
  local all = {}
  for name, setting in next, under do all[name] = setting end
  for name, setting in next, over do
    all[name] = { value = setting.value, at = setting.at, key_at = setting.key_at, by = setting.by,
      replaced = under[name] }
  end
  return all
end

return settings
