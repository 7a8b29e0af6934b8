--- The facts of a schedule as rules see them: activities with their parts of the job, and each person's shifts.
local plan_facts = {}

-- Work belongs to the shift whose hours it begins in, on the day that shift began.
local function shift_of(person, start)
  if not person.shift then return start // 1440 end
  return (start - person.shift.value.values.hours.from) // 1440
end

local function by_name(list)
  local named = {}
  for _, entry in ipairs(list or {}) do named[entry.name] = entry end
  return named
end

local function resolve(job, facts)
  local activities = {}
  for i, fact in ipairs(facts.activities) do
    local area = job.areas[fact.area]
    activities[i] = { id = fact.id, kind = fact.kind, area = area, step = area.recipe.steps[fact.step],
      machine = job.machines[fact.machine], along = job.machines[fact.along], along_min = fact.along_min,
      start = fact.start, finish = fact.finish, stretches = fact.stretches,
      floor_m2 = fact.floor_m2, material_l = fact.material_l, water_l = fact.water_l }
  end
  return activities
end

-- { person, key, tasks = { { activity, minutes } }, minutes }
local function shifts_of(job, facts, activities)
  local shifts, found = {}, {}
  local named = by_name(job.record.values.shifts)
  local function shift_at(number, start)
    local person = facts.persons[number]
    local crew = job.crews[person.crew]
    local key = shift_of({ shift = named[crew.record.values.shift] }, start)
    local id = number .. "/" .. key
    if not found[id] then
      found[id] = { person = person.name, number = number, crew = crew, day = key, tasks = {}, minutes = 0 }
      shifts[#shifts + 1] = found[id]
    end
    return found[id]
  end
  for _, activity in ipairs(activities) do
    for _, stretch in ipairs(activity.stretches) do
      for _, number in ipairs(stretch.people) do
        local shift = shift_at(number, stretch.start)
        local minutes = stretch.finish - stretch.start
        shift.tasks[#shift.tasks + 1] = { activity = activity, minutes = minutes, start = stretch.start }
        shift.minutes = shift.minutes + minutes
      end
    end
  end
  table.sort(shifts, function(a, b)
    if a.day ~= b.day then return a.day < b.day end
    return a.number < b.number
  end)
  return shifts
end

--- plan = { job, activities = { { id, kind, area, step, machine, start, finish, stretches, floor_m2, ... } },
-- shifts = { { person, crew, day, minutes, tasks = { { activity, minutes } } } } }, times in minutes.
function plan_facts.read(job, facts)
  local activities = resolve(job, facts)
  return { job = job, activities = activities, shifts = shifts_of(job, facts, activities), finish = facts.finish }
end

return plan_facts
