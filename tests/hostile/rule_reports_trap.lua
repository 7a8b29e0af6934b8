-- expect: rule 1 needs { message
local mine = rule "mine" { level = "error", scope = "step", says = "nothing", basis = "a test",
  check = function(step, report)
    report(setmetatable({}, { __index = function() while true do end end }))
  end }
return recipe "ruled" {
  revision = "1", rules = { mine },
  finish = { exposure = "cream", appearance = "polished" },
  hone "100" { grit = 100, bond = "resin", wet = true, passes = 6, overlap = "3 in",
               care = "rinse the tools before the slurry sets" },
  collect "slurry" { within = "8 min" },
}
