--- For test scripts that run gritwork as a user does: a folder of their own, files in it, what a run printed.
local files = require "files"

local shell = {}
shell.__index = shell

local function quote(text) return "'" .. text:gsub("'", "'\\''") .. "'" end
shell.quote = quote

local function read_all(command)
  local pipe = io.popen(command)
  local text = pipe:read("a")
  local _, _, status = pipe:close()
  return text, status
end
shell.read_all = read_all

--- A new and empty folder BUILD/scripts/NAME to work in.
function shell.new(build, name)
  local self = setmetatable({ name = name, passed = 0, failed = 0 }, shell)
  self.gritwork = read_all("realpath " .. quote(build .. "/gritwork")):match("[^\n]+")
  self.folder = ("%s/scripts/%s"):format(build, name)
  os.execute(("rm -rf %s && mkdir -p %s"):format(quote(self.folder), quote(self.folder)))
  return self
end

--- Puts a copy of a file or folder of the project into the folder, under its own name.
function shell:copy(path) assert(os.execute(("cp -r %s %s"):format(quote(path), quote(self.folder)))) end

--- Writes a file of the folder, making folders on the way.
function shell:write(name, text)
  local path = self.folder .. "/" .. name
  if name:find("/", 1, true) then os.execute("mkdir -p " .. quote(path:match("^(.*)/"))) end
  files.write(path, text)
end

--- A file of the folder, which must be there.
function shell:read(name) return assert(files.read(self.folder .. "/" .. name), name) end

--- Runs any command in the folder: what it printed on both streams, and its exit status.
function shell:sh(command) return read_all(("cd %s && { %s ; } 2>&1"):format(quote(self.folder), command)) end

--- Runs `gritwork ARGUMENTS` in the folder.
function shell:run(arguments) return self:sh(quote(self.gritwork) .. " " .. arguments) end

--- A behaviour, named as a sentence: `body` raises an error if it does not hold.
function shell:test(sentence, body)
  local fine, why = pcall(body)
  if fine then
    self.passed = self.passed + 1
  else
    self.failed = self.failed + 1
    print(("%s: %s\n  %s"):format(self.name, sentence, why))
  end
end

--- Compares, and shows both when they differ.
function shell.same(got, want, what)
  if got == want then return end
  error(("%s\n-- got:\n%s\n-- wanted:\n%s\n--"):format(what or "different", tostring(got), tostring(want)), 2)
end

--- The text must hold this piece, taken literally.
function shell.holds(text, piece)
  if not text:find(piece, 1, true) then error(("not found: %s\n-- in:\n%s\n--"):format(piece, text), 2) end
end

--- The text must not hold it.
function shell.lacks(text, piece)
  if text:find(piece, 1, true) then error(("not wanted: %s\n-- in:\n%s\n--"):format(piece, text), 2) end
end

--- Prints the count and leaves.
function shell:finish()
  print(("%s: %d passed, %d failed"):format(self.name, self.passed, self.failed))
  os.exit(self.failed == 0)
end

return shell
