--- waive: somebody answers for breaking a rule.
return {
  kind = "waiver",
  says = "lets a rule be broken, for a reason that somebody answers for; what it covers becomes a note",
  example = 'waive "grit-step" { step = "800", reason = "the mock-up showed no scratch", by = "shop foreman" }',
  fields = require("core.waivers").fields,
}
