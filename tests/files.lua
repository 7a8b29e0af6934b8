--- Whole files, for the test scripts.
local files = {}

--- The bytes of a file; nil if there is none.
function files.read(path)
  local file = io.open(path, "rb")
  if not file then return nil end
  local text = file:read("a")
  file:close()
  return text
end

--- Writes a file whose folder exists.
function files.write(path, text)
  local file = assert(io.open(path, "wb"))
  file:write(text)
  file:close()
end

return files
