--- before: in a tailored recipe, puts steps in front of a named one.
return {
  kind = "override",
  says = "puts steps in front of a named one",
  example = 'before "open" { grind "cut 40" { grit = 40, bond = "metal" } }',
  entries = "steps",
}
