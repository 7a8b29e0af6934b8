--- Words of the trade that the language calls otherwise: read only once one of them was refused.
return {
  -- by word: what to write instead
  words = {
    vacuum = 'clean "dust" { with = "vacuum" }', sweep = 'clean "dust" { with = "vacuum" }',
    wash = 'clean "wash" { with = "water" }', rinse = 'clean "rinse" { with = "water" }',
    scrub = 'clean "scrub" { with = "water" }', squeegee = 'collect "slurry" { within = "8 min" }',
    buff = 'burnish "buff" { ... }', cut = 'grind "cut" { ... }', open = 'grind "open" { ... }',
    seal = 'guard "seal" { ... }', sealer = 'guard "sealer" { ... }', protect = 'guard "guard" { ... }',
    harden = 'densify "densify" { ... }', hardener = 'densify "densify" { ... }', color = 'dye "..." { ... }',
    colour = 'dye "..." { ... }', repair = 'patch "repair" { ... }', joint = 'fill "joints" { ... }',
    dry = 'wait "drying" { time = "1 h" }', pause = 'wait "pause" { time = "1 h" }',
    measure = 'check "..." { measure = "..." }', inspect = 'check "..." { measure = "..." }',
    read = 'check "..." { measure = "..." }', room = 'area "..." { ... }', worker = 'crew "..." { ... }',
    people = 'crew "..." { ... }', equipment = 'machine "..." { ... }', remove = 'drop "..."',
    delete = 'drop "..."', add = 'after "..." { ... } or before "..." { ... }', insert = 'after "..." { ... }',
    method = 'recipe "..." { ... }', schedule = 'job "..." { ... }',
  },
  -- by field: the name of one that means it, where the word has that
  fields = {
    speed = { "travel" }, pace = { "travel" }, pad = { "grit" }, tool = { "bond" }, tooling = { "bond" },
    diamond = { "bond" }, hardness = { "matrix" }, product = { "with" }, chemical = { "with" },
    material = { "with" }, coverage = { "spread" }, cover = { "spread" }, drying = { "dry" },
    duration = { "time", "dwell" }, soak = { "dwell" }, time = { "dwell", "dry" }, wait = { "dry" },
    crew = { "people" }, workers = { "people" }, persons = { "people" }, comment = { "says", "note" },
    text = { "says", "note" }, instructions = { "says" }, target = { "want" }, expect = { "want" },
    samples = { "readings" }, size = { "area", "width" }, sqft = { "area" }, method = { "recipe" },
    deadline = { "finish_by" }, due = { "finish_by" }, work = { "does" }, skill = { "skills" },
    wages = { "labour" }, customer = { "client" }, address = { "place" }, location = { "place" },
    perimeter = { "edges" }, walls = { "edges" }, profit = { "margin", "markup" }, vat = { "material_tax" },
  },
  -- by what was written for a choice: the name of the language
  choices = {
    ["salt and pepper"] = "fine aggregate", imperial = "us", english = "us", si = "metric", matte = "flat",
    matt = "flat", ["high gloss"] = "highly polished", gloss = "gloss 60", slip = "wet slip", dcof = "wet slip",
    mohs = "mohs hardness", hardness = "mohs hardness", clarity = "image clarity", rh = "relative humidity",
    hepa = "vacuum", lpg = "propane",
  },
}
