-- expect: mine 1 more findings are not shown
local mine = rule "mine" { level = "error", scope = "step", says = "nothing", basis = "a test",
  check = function(step, report)
    for i = 1, 5000 do report { message = "no " .. i } end
  end }
return recipe "ruled" {
  revision = "1", rules = { mine },
  finish = { exposure = "cream", appearance = "polished" },
  hone "100" { grit = 100, bond = "resin", wet = true, passes = 6, overlap = "3 in",
               care = "rinse the tools before the slurry sets" },
  collect "slurry" { within = "8 min" },
}
