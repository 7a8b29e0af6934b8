--- after: in a tailored recipe, puts steps behind a named one.
return {
  kind = "override",
  says = "puts steps behind a named one",
  example = 'after "wash" { dye "walnut" { with = "acetone dye", spread = "400 sqft/gal" } }',
  entries = "steps",
}
