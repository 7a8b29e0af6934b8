--- The climate of a job in the units of native.air.
local chain = require "core.chain"

local climate = {}

--- { air_c, humidity (0 to 1), surface_c, wind_km_h } and the place it is written; nil where the job says nothing
-- of it.
function climate.of(job)
  local humidity, at = nil, nil
  if job then humidity, at = chain.inner(job, "climate", "humidity") end
  local air, surface = humidity and chain.inner(job, "climate", "air"),
    humidity and chain.inner(job, "climate", "surface")
  if not air or not surface then return nil end
  return { air_c = air:to("C"), humidity = humidity:to("%") / 100, surface_c = surface:to("C"),
    wind_km_h = chain.inner(job, "climate", "wind"):to("km/h") }, at
end

return climate
