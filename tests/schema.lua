--- Judges JSON by a schema, for the test scripts: one process of tests/json_schema.py answers them all.
local shell = require "shell"

local schema = {}
local requests, answers

local function start(folder)
  local pipe = folder .. "/schema.answers"
  os.execute(("rm -f %s && mkfifo %s"):format(shell.quote(pipe), shell.quote(pipe)))
  requests = assert(io.popen("/usr/bin/python3 tests/json_schema.py >" .. shell.quote(pipe), "w"))
  answers = assert(io.open(pipe))
end

--- "valid", or what is wrong with `text` by the schema at `path`. The folder of `sh` holds the pipe of the answers.
function schema.judge(sh, path, text)
  if not requests then start(sh.folder) end
  requests:write(path, " ", #text, "\n", text)
  requests:flush()
  return assert(answers:read("l"), "the judge gave no answer")
end

return schema
