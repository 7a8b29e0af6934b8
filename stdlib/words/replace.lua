--- replace: in a tailored recipe, puts steps in the place of a named one.
return {
  kind = "override",
  says = "puts steps in the place of a named one",
  example = 'replace "wash" { clean "vacuum" { with = "vacuum" } }',
  entries = "steps",
}
