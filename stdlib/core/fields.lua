--- Fields that several step words share. Each function makes a fresh list, so that a word can add its own.
local types = require "core.types"

local fields = {}

local PRACTICE = "common practice, no source"

--- Appends the fields of `more` to `list` and returns it.
function fields.join(list, more)
  for _, field in ipairs(more) do list[#list + 1] = field end
  return list
end

local function general(skill, people)
  return {
    { "within", types.quantity("time"), says = "starts at most this long after the step before it ends",
      example = '"8 min"' },
    { "people", types.whole(1, 50), says = "people at work on it together", default = people or 1,
      basis = PRACTICE },
    { "skill", types.text("a skill"), says = "what the people must be able to do; `any` for everybody",
      default = skill, basis = "this project's own choice of words" },
    { "care", types.text(), says = "what must be done to the tools, for the crew's sheet",
      example = '"rinse the tools before the slurry sets"' },
    { "says", types.text(), says = "words for the crew's sheet" },
  }
end

fields.BONDS = { "metal", "transitional", "resin", "fibre", "scraper" }
fields.MATRICES = { "extra soft", "soft", "medium", "hard", "extra hard" }
fields.SYSTEMS = { "floor pad", "FEPA P", "FEPA F", "JIS", "CAMI", "sieve", "diamond" }

--- Fields of the abrasive words. options: bond (a default), edges (default), edge_rate, grit_required.
function fields.abrasive(options)
  return fields.join({
    { "grit", types.number(6, 8000), says = "the grit number printed on the tool", required = options.grit_required,
      example = "200" },
    { "system", types.choice(fields.SYSTEMS), says = "the system that the grit number belongs to",
      default = "floor pad", basis = "plain floor tool numbers; " .. PRACTICE },
    { "bond", types.choice(fields.BONDS), says = "what holds the diamond", required = options.bond == nil,
      default = options.bond, basis = PRACTICE, example = '"resin"' },
    { "matrix", types.choice(fields.MATRICES),
      says = "how hard the bond is: soft for hard slabs, hard for soft ones" },
    { "wet", types.flag, says = "run with water", default = false, basis = "dry unless the recipe says wet" },
    { "passes", types.whole(1, 60), says = "passes over the same floor", default = 1,
      basis = "one pass unless the recipe says more" },
    { "overlap", types.quantity("length", { least = "0 in", most = "4 ft" }),
      says = "overlap of neighbouring lanes; else the machine's own", example = '"3 in"' },
    { "travel", types.quantity("speed", { least = "0.5 ft/min", most = "400 ft/min" }),
      says = "walking speed; else the machine's own", example = '"15 ft/min"' },
    { "machine", types.text("a machine class of the job"),
      says = "the machine class; else any that does this word" },
    { "water", types.quantity("spread rate"),
      says = "floor that a volume of water serves in a wet step, all passes",
      default = "100 sqft/gal", basis = "1 gal for 50-250 sqft a wet step; " .. PRACTICE,
        example = '"100 sqft/gal"' },
    { "edges", types.flag, says = "walls and columns are worked by hand to match", default = options.edges,
      basis = PRACTICE },
    { "edge_rate", types.quantity("speed", { least = "1 ft/h", most = "600 ft/h" }),
      says = "hand work along an edge", default = options.edge_rate or "40 ft/h",
      basis = "hand edging 20-50 ft/h metal, 30-80 ft/h resin; " .. PRACTICE, example = '"40 ft/h"' },
  }, general("machine"))
end

--- Fields of the words that go over the floor at a rate: collect, clean. options: rate, basis, with, names.
function fields.surface(options)
  local list = {}
  if options.names then
    list[1] = { "with", types.choice(options.names), says = "what it is done with", default = options.names[1],
      basis = PRACTICE }
  end
  return fields.join(fields.join(list, {
    { "rate", types.quantity("production rate"), says = "floor done in a time", default = options.rate,
      basis = options.basis .. "; " .. PRACTICE, example = '"6000 sqft/h"' },
    { "machine", types.text("a machine class of the job"),
      says = "the machine class; else any that does this word" },
    { "dry", types.window("time", { from = true }), says = "rests this long before the next step",
      example = '"30 min"' },
  }), general("any"))
end

local function chemical_rest()
  return {
    { "dwell", types.window("time", { from = true }),
      says = "works on the floor so long before the next step; a window's upper end is kept too",
      example = 'between("25 min", "45 min")' },
    { "keep", types.choice { "wet", "still" }, says = "wet: one person stays and keeps the floor wet for the dwell",
      default = "still", basis = "nobody stays unless the recipe says keep = \"wet\"" },
    { "dry", types.window("time", { from = true }), says = "dries this long before the next step",
      example = '"30 min"' },
  }
end

--- Fields of the words that spread a material: densify, dye, stain, grout, guard. options: names, rate, basis,
-- spread_example.
function fields.spread(options)
  return fields.join(fields.join({
    { "with", types.choice(options.names), says = "the chemistry", required = true },
    { "spread", types.window("spread rate"), says = "floor covered by a volume, one coat", required = true,
      example = options.spread_example },
    { "coats", types.whole(1, 10), says = "coats, one after the other", default = 1,
      basis = "one coat unless said" },
    { "waste", types.quantity("fraction", { least = "0 %", most = "100 %" }), says = "material lost on top",
      default = "5 %", basis = PRACTICE },
    { "rate", types.quantity("production rate"), says = "floor done in a time, one coat", default = options.rate,
      basis = options.basis .. "; " .. PRACTICE, example = '"3000 sqft/h"' },
  }, chemical_rest()), general("chemicals"))
end

fields.chemical_rest, fields.general = chemical_rest, general
fields.PRACTICE = PRACTICE

return fields
