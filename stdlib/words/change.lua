--- change: in a tailored recipe, lays fields over those of a named step.
return {
  kind = "override",
  says = "lays fields over those of a named step; the others stay",
  example = 'change "densify" { spread = "350 sqft/gal" }',
  entries = "fields of the step",
}
