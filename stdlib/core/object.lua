--- Objects: what words give to a script. A script can hold them and read them, but not change them.
local finding = require "core.finding"
local place = require "native.place"

local object = {}

local contents = setmetatable({}, { __mode = "k" })

--- A class of objects. `read(data, key)` answers a script's `o.key`; `call(data, ...)` answers `o(...)`;
-- `frozen` is the advice to who would change one.
function object.class(name, options)
  options = options or {}
  local class = { name = name }
  class.meta = {
    __metatable = false,
    __name = name,
    __index = function(o, key)
      if options.read then return options.read(contents[o], key) end
      return nil
    end,
    __newindex = function(_, key)
      finding.error {
        code = "frozen", at = place.caller(1),
        message = ("a %s cannot be changed once it is made (`%s` was assigned)"):format(name, tostring(key)),
        help = options.frozen or "say it inside its { ... }, or tailor it",
      }
    end,
    __tostring = function(o) return name .. " " .. tostring(contents[o].name or "") end,
  }
  for event, method in pairs(options.events or {}) do class.meta[event] = method end
  if options.call then
    class.meta.__call = function(o, ...) return options.call(contents[o], ...) end
  end
  return class
end

--- An object of a class, holding `data`.
function object.new(class, data)
  local o = setmetatable({}, class.meta)
  data.class = class
  contents[o] = data
  return o
end

--- The data of a value if it is an object (of that class, when one is named), else nil.
function object.data(value, class)
  local data = contents[value]
  if data and (class == nil or data.class == class) then return data end
  return nil
end

--- Is it a table that says what stands in it, and nothing else: no object, and without a metatable of a script's
-- own, whose functions would be asked in its place and may answer anything, or never?
function object.is_plain(v) return type(v) == "table" and not contents[v] and not scripted(v) end

--- What a value is, in words for a message: "a step", "the text `2 h`", "the number 3".
function object.describe(value)
  local data = object.data(value)
  if data then return (data.class.name:find("^[aeiou]") and "an " or "a ") .. data.class.name end
  local kind = type(value)
  if kind == "nil" then return "nothing" end
  if kind == "string" then return ("the text `%s`"):format(value:sub(1, 40)) end
  if kind == "number" then return "the number " .. tostring(value) end
  if kind == "boolean" then return tostring(value) end
  if kind == "table" then return scripted(value) and "a table with a metatable" or "a list or table" end
  if kind == "userdata" then return ("%s (%s)"):format(tostring(value), value:kind()) end
  return "a " .. kind
end

return object
