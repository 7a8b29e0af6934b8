--- alternate: a floor done another way, priced as a difference.
return {
  kind = "part",
  says = "another recipe for an area, priced in a bid as what it adds or deducts",
  example = 'alternate "dyed entrance" { area = "entrance", recipe = dyed }',
  fields = require("core.parts").alternate,
}
