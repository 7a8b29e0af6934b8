--- Fields of what a job is made of: areas, crews, machines.
local types = require "core.types"

local parts = {}

local PRACTICE = "common practice, no source"

parts.WORK = { "grind", "hone", "polish", "burnish", "collect", "clean", "edges" }

--- Controls that rows of the silica rule's Table 1 ask for.
parts.DUST_CONTROLS = { "water feed", "collector", "filter 99", "filter cleaning", "25 cfm an inch",
  "hepa between passes" }

parts.area = {
  { "recipe", types.document("recipe"), says = "what is done here", required = true },
  { "length", types.quantity("length", { least = "1 ft", most = "10000 ft" }), says = "of a rectangle",
    example = '"60 ft"' },
  { "width", types.quantity("length", { least = "1 ft", most = "10000 ft" }), says = "of a rectangle" },
  { "area", types.quantity("area", { least = "1 sqft", most = "100000000 sqft" }),
    says = "of a floor that is no rectangle", example = '"2400 sqft"' },
  { "edges", types.quantity("length", { least = "0 ft", most = "1000000 ft" }),
    says = "walls and columns worked by hand; else the rectangle's outline", example = '"200 ft"' },
  { "joints", types.quantity("length", { least = "0 ft", most = "1000000 ft" }), says = "joints that are filled",
    default = "0 ft", basis = "no joints said" },
  { "hours", types.hours, says = "the only hours in which it may be worked on or wet; open to walk on outside them",
    example = '"20:00 to 05:00"' },
  { "machine", types.text("a machine class of the job"),
    says = "the machine class that works here, where it can do the step",
    example = '"planetary 22 in"' },
  { "finish_by", types.instant, says = "when it must be done", example = '"2027-03-05 06:00"' },
  { "opens_to", types.choice { "light foot", "full foot and water", "wheels and forks",
    "wet cleaning with chemicals" },
    says = "traffic that it must bear at finish_by, for the rest after a guard", example = '"light foot"' },
  { "protection", types.quantity("time", { least = "0 min", most = "200 h" }),
    says = "one person's work to mask and cover before the first step", default = "0 min",
    basis = "nothing to protect unless said", example = '"45 min"' },
  { "clean_up", types.quantity("time", { least = "0 min", most = "200 h" }),
    says = "one person's work to clear up after the last step", default = "0 min",
    basis = "nothing to clear up unless said", example = '"20 min"' },
  { "set", types.map(types.anything), says = "parameters of the recipe", example = '{ ["field passes"] = 8 }' },
}

parts.alternate = {
  { "area", types.text("an area of the job"), says = "the area it is for", required = true,
    example = '"entrance"' },
  { "recipe", types.document("recipe"), says = "what would be done there instead", required = true },
  { "says", types.text(), says = "words for the client" },
}

parts.crew = {
  { "count", types.whole(1, 200), says = "how many people", default = 1, basis = "one person unless said" },
  { "skills", types.list(types.text("a skill")), says = "what each of them can do", required = true,
    example = '{ "machine", "readings" }' },
  { "shift", types.text("a shift of the job"), says = "when they work, by the name of a shift", required = true,
    example = '"night"' },
  { "away", types.list(types.date), says = "days on which none of them begins a shift",
    example = '{ "2027-03-05" }' },
}

parts.machine = {
  { "count", types.whole(1, 200), says = "how many of them", default = 1, basis = "one machine unless said" },
  { "does", types.list(types.choice(parts.WORK)), says = "the work it can do; `edges` for hand work along walls",
    required = true, example = '{ "grind", "hone", "polish" }' },
  { "wet", types.flag, says = "may run wet", default = false, basis = "dry only unless said" },
  { "width", types.quantity("length", { least = "3 in", most = "12 ft" }), says = "width of the head",
    example = '"32 in"' },
  { "overlap", types.quantity("length", { least = "0 in", most = "4 ft" }),
    says = "of lanes, where the step does not say",
    default = "2 in", basis = "about 2 in on small heads; " .. PRACTICE },
  { "travel", types.quantity("speed", { least = "0.5 ft/min", most = "400 ft/min" }),
    says = "walking speed, where the step does not say", default = "15 ft/min",
    basis = "10-20 ft/min metals, 15-40 ft/min resins; " .. PRACTICE },
  { "rate", types.quantity("production rate"), says = "floor done in a time, for collect and clean" },
  { "turn", types.quantity("time", { least = "0 s", most = "30 min" }), says = "time to turn at the end of a lane",
    default = "15 s", basis = PRACTICE },
  { "duty", types.quantity("fraction", { least = "5 %", most = "100 %" }),
    says = "part of the time that it really runs",
    default = "85 %", basis = "hoses, cords, checks; " .. PRACTICE },
  { "noise", types.quantity("sound level", { least = "30 dBA", most = "140 dBA" }), says = "at its operator's ear",
    example = '"94 dBA"' },
  { "vibration", types.quantity("vibration", { least = "0 m/s2", most = "100 m/s2" }),
    says = "hand-arm vibration of its handles, three axes together (ISO 5349-1)", example = '"4.5 m/s2"' },
  { "dust", types.list(types.choice(parts.DUST_CONTROLS)), says = "dust controls in use with it",
    example = '{ "collector", "filter 99", "filter cleaning", "hepa between passes" }' },
  { "tank", types.quantity("volume", { least = "1 L", most = "5000 L" }),
    says = "what its water or recovery tank holds; without one it makes no trips",
    example = '"20 gal"' },
  { "amps", types.quantity("current", { least = "0.1 A", most = "1000 A" }), says = "running current",
    example = '"16 A"' },
  { "volts", types.quantity("voltage", { least = "1 V", most = "1000 V" }), says = "supply voltage",
    example = '"230 V"' },
  { "phases", types.choice { "single", "three" }, says = "phases of its supply", default = "single",
    basis = "single phase unless said" },
  { "drive", types.flag, says = "fed through a variable-frequency drive", default = false,
    basis = "no drive unless said" },
  { "cord", types.quantity("length", { least = "1 ft", most = "3000 ft" }), says = "length of its cord, one way",
    example = '"100 ft"' },
  { "gauge", types.whole(0, 14), says = "AWG number of the cord's copper conductors", example = "10" },
  { "fuel", types.choice { "electric", "propane" }, says = "what drives it", default = "electric",
    basis = "electric unless said" },
  { "carbon_monoxide", types.number(0, 100000), says = "exhaust, g of carbon monoxide an hour, by its maker" },
  { "set_up", types.quantity("time", { least = "0 min", most = "8 h" }),
    says = "to change tools and start, each step and area",
    default = "10 min", basis = PRACTICE },
  { "trip", types.quantity("time", { least = "0 min", most = "4 h" }), says = "to fill or empty its tank once",
    default = "10 min", basis = PRACTICE },
  { "hours", types.hours, says = "the only hours of the day in which it may run", example = '"8:00 to 17:00"' },
  { "away", types.list(types.date), says = "days on which it is not on site", example = '{ "2027-03-05" }' },
}

return parts
