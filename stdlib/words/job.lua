--- job: rooms, people, machines, shifts, and which recipe goes where.
local job = require "core.job"

return {
  kind = "document",
  says = "a job: its areas with their recipes, its people, machines, shifts and prices",
  example = 'job "north hall" { units = "us", start = "2027-03-01 18:00", shifts = { ... }, crew ..., machine ..., area ... }',
  fields = job.fields,
  entries = "areas, crews, machines and alternates",
  build = job.from_script,
}
