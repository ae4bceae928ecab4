import { describe, expect, it } from "vitest";
import { LIMITS } from "../../sim/scenario/limits.ts";
import { changed, checkScenario, fullDay, leastDay, readScenario, unsound } from "./days.ts";

type Day = Record<string, any>;
type Bad = readonly [what: string, change: (day: Day) => void, pointer: string, says: RegExp];

/** From the least day. */
const BAD: readonly Bad[] = [
  // missing
  ["no fields", (day) => { delete day.fields; }, "/fields", /^fields is missing: a list of 1 to 200 fields would do\.$/u],
  ["no choppers", (day) => { delete day.choppers; }, "/choppers", /is missing/u],
  ["no trucks", (day) => { delete day.trucks; }, "/trucks", /is missing/u],
  ["no storage", (day) => { delete day.storage; }, "/storage", /is missing/u],
  ["no packing", (day) => { delete day.packing; }, "/packing", /is missing/u],
  ["no area", (day) => { delete day.fields[0].area; }, "/fields/0/area", /^fields\[0\]\.area is missing: an area takes m2, ha or acre/u],
  ["no load and no volume", (day) => { delete day.trucks[0].load; }, "/trucks/0/load", /a load such as "16 t", a volume such as "40 m3", or both/u],
  ["nobody to pack", (day) => { day.packing = {}; }, "/packing/tractors", /at least one tractor with spreads/u],
  ["nobody to spread", (day) => { delete day.packing.tractors[0].spreads; }, "/packing/tractors", /at least one tractor with spreads/u],
  ["an empty value", (day) => { day.fields[0].area = null; }, "/fields/0/area", /area is empty: an area takes/u],

  // empty lists
  ["no field in the list", (day) => { day.fields = []; }, "/fields", /^fields is an empty list: a list of 1 to 200 fields would do\.$/u],
  ["no truck in the list", (day) => { day.trucks = []; }, "/trucks", /is an empty list/u],
  ["no tractor in the list", (day) => { day.packing.tractors = []; }, "/packing/tractors", /is an empty list/u],
  ["no storage for a field", (day) => { day.fields[0].storage = []; }, "/fields/0/storage", /is an empty list/u],

  // units
  ["a bare number", (day) => { day.fields[0].area = 14; }, "/fields/0/area", /^fields\[0\]\.area is 14: the unit is missing; an area takes m2, ha or acre/u],
  ["an unknown unit", (day) => { day.fields[0].area = "14 hectare"; }, "/fields/0/area", /"14 hectare": hectare is no unit known here; an area takes m2, ha or acre/u],
  ["a unit of something else", (day) => { day.fields[0].area = "14 kg"; }, "/fields/0/area", /kg is the unit of a mass/u],
  ["money without per what", (day) => { day.labour = "25"; }, "/labour", /money per hour takes per h/u],
  ["money per the wrong thing", (day) => { day.feedValue = "180 per h"; }, "/feedValue", /per h is the unit of money per hour; .*per t or per ton/u],
  ["a share in words", (day) => { day.targets = { poreSpace: "low" }; }, "/targets/poreSpace", /a percentage or a decimal would do/u],

  // impossible
  ["a negative area", (day) => { day.fields[0].area = "-3 ha"; }, "/fields/0/area", /"-3 ha": over 0 ha and up to 5000 ha would do/u],
  ["no speed at all", (day) => { day.choppers[0].speed = "0 km/h"; }, "/choppers/0/speed", /"0 km\/h": over 0 km\/h and up to 30 km\/h would do/u],
  ["a truck that does not drive", (day) => { day.trucks[0].loaded = "0 km/h"; }, "/trucks/0/loaded", /over 0 km\/h and up to 100 km\/h/u],
  ["a truck faster than any", (day) => { day.trucks[0].empty = "280 km/h"; }, "/trucks/0/empty", /up to 100 km\/h/u],
  ["dry matter over 1", (day) => { day.crop = { dryMatter: 1.2 }; }, "/crop/dryMatter", /is 1\.2: from 10 % up to 90 % would do/u],
  ["dry matter as a bare percentage", (day) => { day.crop = { dryMatter: 34 }; }, "/crop/dryMatter", /is 34: from 10 % up to 90 %/u],
  ["dry matter and moisture that disagree", (day) => { day.crop = { dryMatter: "34 %", moisture: "60 %" }; }, "/crop/moisture", /a dryMatter of "34 %" leaves 66 % moisture/u],
  ["a target without pore space", (day) => { day.crop = { dryMatter: "20 %" }; }, "/targets/dryDensity", /no pore space at a dry matter of 20 %: less than 216 kg\/m3/u],
  ["half a truck", (day) => { day.trucks[0].count = 2.5; }, "/trucks/0/count", /is 2\.5: a whole number from 1 to 500/u],
  ["no truck of a kind", (day) => { day.trucks[0].count = 0; }, "/trucks/0/count", /is 0: a whole number from 1/u],
  ["not a number", (day) => { day.trucks[0].count = NaN; }, "/trucks/0/count", /is NaN/u],
  ["a seed with a fraction", (day) => { day.seed = 0.5; }, "/seed", /a whole number/u],
  ["a tractor over its own limit", (day) => { day.packing.tractors[0].maxMass = "12 t"; }, "/packing/tractors/0/mass", /"14 t", over its own maxMass of "12 t"/u],
  ["a layer thicker than any", (day) => { day.packing.layer = "2 m"; }, "/packing/layer", /from 2 cm up to 40 cm/u],
  ["a storage too small for one load", (day) => { Object.assign(day.storage[0], { width: "4 m", length: "6 m", height: "1 m" }); }, "/storage/0/length", /a storage must take a load at least\.$/u],
  ["a slope steeper than a wall", (day) => { day.storage[0].wedge = "3:1"; }, "/storage/0/wedge", /"1:1" to "1:20"/u],
  ["a slope over nothing", (day) => { day.storage[0].wedge = "0:0"; }, "/storage/0/wedge", /slope/u],
  ["a bunker with slopes", (day) => { day.storage[0].sideSlope = "1:3"; }, "/storage/0/sideSlope", /a bunker has upright walls/u],
  ["a pile that comes to a ridge", (day) => { day.storage[0].form = "pile"; }, "/storage/0/height", /comes to a ridge at 2 m/u],
  ["a pile wider at the top", (day) => { Object.assign(day.storage[0], { form: "pile", topWidth: "13 m" }); }, "/storage/0/topWidth", /a pile gets narrower/u],
  ["a pile whose figures disagree", (day) => { Object.assign(day.storage[0], { form: "pile", width: "30 m", sideSlope: "1:3", topWidth: "5 m" }); }, "/storage/0/topWidth", /base, height and sideSlope give 10\.8 m/u],
  ["a pile deeper than high", (day) => { Object.assign(day.storage[0], { form: "pile", width: "30 m", meanDepth: "4 m" }); }, "/storage/0/meanDepth", /more than the pile's height/u],
  ["a lane longer than the road", (day) => { day.lane = { length: "3 km", speed: "20 km/h" }; }, "/lane/length", /longer than the whole road of fields\[0\]/u],
  ["tipping on a pile that is not there", (day) => { day.trucks[0].tipsOnPile = "on"; }, "/trucks/0/tipsOnPile", /no storage is a pile/u],
  ["tipping on a bunker", (day) => { day.storage[0].tipsOnPile = true; }, "/storage/0/tipsOnPile", /this is a bunker/u],

  // time
  ["an hour that is none", (day) => { day.shift = { start: "7 o'clock" }; }, "/shift/start", /a time of day such as "07:00"/u],
  ["a minute that is none", (day) => { day.shift = { start: "07:75" }; }, "/shift/start", /a time of day/u],
  ["a shift that ends before it starts", (day) => { day.shift = { start: "20:00", end: "06:00" }; }, "/shift/end", /not after the start/u],
  ["a break outside the shift", (day) => { day.shift = { breaks: [{ at: "06:00", for: "30 min" }] }; }, "/shift/breaks/0", /within the shift/u],
  ["a break that outlasts the shift", (day) => { day.shift = { breaks: [{ at: "19:45", for: "30 min" }] }; }, "/shift/breaks/0", /within the shift/u],
  ["breaks on top of each other", (day) => { day.shift = { breaks: [{ at: "12:00", for: "1 h" }, { at: "12:30", for: "1 h" }] }; }, "/shift/breaks/1", /before it is over/u],
  ["nothing but a break", (day) => { day.shift = { start: "08:00", end: "09:00", breaks: [{ at: "08:00", for: "1 h" }] }; }, "/shift/breaks", /fill the whole shift/u],

  // names
  ["two fields of one name", (day) => { day.fields = [{ ...day.fields[0], name: "Hill" }, { ...day.fields[0], name: "Hill" }]; }, "/fields/1/name", /"Hill", the name of fields\[0\] already/u],
  ["two choppers of one name", (day) => { day.choppers = [{ ...day.choppers[0], name: "A" }, { ...day.choppers[0], name: " A " }]; }, "/choppers/1/name", /already/u],
  ["two tractors of one name", (day) => { day.packing.tractors = [{ ...day.packing.tractors[0], name: "A" }, { mass: "9 t", name: "A" }]; }, "/packing/tractors/1/name", /"A", the name of packing\.tractors\[0\] already/u],
  ["a storage nobody knows", (day) => { day.storage[0].name = "South bunker"; day.fields[0].storage = "Sout bunker"; }, "/fields/0/storage", /no storage has that name; did you mean "South bunker"\?/u],
  ["a chopper nobody knows", (day) => { day.trucks[0].chopper = "Zeppelin"; }, "/trucks/0/chopper", /no chopper has that name; there is "Chopper 1"/u],
  ["a tractor nobody knows", (day) => { day.storage[0].tractors = ["Tractor 9", "Tractor 1"]; }, "/storage/0/tractors/0", /did you mean "Tractor 1"\?/u],
  ["a blank name", (day) => { day.name = "  "; }, "/name", /a name of 1 to 80 characters/u],
  ["a name of many lines", (day) => { day.name = "a\nb"; }, "/name", /in one line/u],
  ["a name that moves the cursor", (day) => { day.name = "a\u001b[2Jb"; }, "/name", /^name is "a·\[2Jb"/u],
  ["a name that is a number", (day) => { day.fields[0].name = 12; }, "/fields/0/name", /put the name in quotes/u],

  // kinds of value
  ["a document that is a list", (day) => { day.fields = "Long Strip"; }, "/fields", /is "Long Strip": a list of 1 to 200 fields/u],
  ["a field that is a word", (day) => { day.fields = ["Long Strip"]; }, "/fields/0", /is "Long Strip": a group of keys would do: name, area/u],
  ["a group where a quantity belongs", (day) => { day.fields[0].area = { ha: 14 }; }, "/fields/0/area", /is a group of keys: an area takes/u],
  ["a rule nobody knows", (day) => { day.packing.whenBehind = "bury-then-hold"; }, "/packing/whenBehind", /hold, bury, hold-then-bury or ease would do/u],
  ["a rule misspelt", (day) => { day.packing.whenBehind = "burry"; }, "/packing/whenBehind", /did you mean bury\?/u],
  ["a form nobody knows", (day) => { day.storage[0].form = "tower"; }, "/storage/0/form", /bunker or pile would do/u],
  ["a switch that is neither", (day) => { day.packing.layerTerm = "maybe"; }, "/packing/layerTerm", /on or off would do/u],

  // keys
  ["a key misspelt", (day) => { day.fields[0].yeild = "45 t/ha"; }, "/fields/0/yeild", /^There is no key "yeild" in fields\[0\]; did you mean yield\?$/u],
  ["a key of the wrong case", (day) => { day.fields[0].rowlength = "400 m"; }, "/fields/0/rowlength", /did you mean rowLength\?/u],
  ["a key far from any", (day) => { day.weather = "fine"; }, "/weather", /^There is no key "weather"; known here: name, crop, .* and seed\.$/u],
  ["a key inside a tractor of a storage", (day) => { day.storage[0].tractors = [{ mass: "14 t", spreads: "200 t/h", weigth: "1 t" }]; delete day.packing.tractors; }, "/storage/0/tractors/0/weigth", /in storage\[0\]\.tractors\[0\]/u],
  ["a search from many trucks to few", (day) => { day.search = { trucks: { from: 8, to: 3 } }; }, "/search/trucks/to", /less than the 8/u],
  ["a search for more tractors than there are", (day) => { day.search = { tractors: { from: 1, to: 3, list: [{ mass: "16 t", count: 2 }] } }; }, "/search/tractors/to", /the list has 2 in all/u],
  ["a search with the same layer twice, in two units", (day) => { day.search = { layers: ["15 cm", "150 mm"] }; }, "/search/layers/1", /in this list already/u],
  ["a search for a kind of truck that is not there", (day) => { day.search = { trucks: { kind: "Lorry", from: 1, to: 2 } }; }, "/search/trucks/kind", /no kind of truck has that name/u],
  ["a search with a tractor named like one that stays", (day) => { day.packing.tractors[0].name = "Blade"; day.search = { tractors: { from: 0, to: 1, list: [{ name: "Blade", mass: "16 t" }] } }; }, "/search/tractors/list/0/name", /works already/u],
  ["a search for a chance that nobody can have", (day) => { day.search = { targets: { relation: "100 %" } }; }, "/search/targets/relation", /from 1 % up to 99 %/u],
  ["constructor", (day) => { day["constructor"] = {} as never; }, "/constructor", /^There is no key "constructor"\.$/u],
  ["prototype", (day) => { day.fields[0].prototype = 1; }, "/fields/0/prototype", /There is no key "prototype" in fields\[0\]/u],
  ["toString", (day) => { day["toString"] = "x" as never; }, "/toString", /There is no key "toString"/u],

  // money and pay
  ["a price for hours", (day) => { day.choppers[0].price = "12 per t"; }, "/choppers/0/price", /paid by-hour: leave it out/u],
  ["no price for tonnes", (day) => { day.choppers[0].paid = "by-ton"; }, "/choppers/0/price", /is missing: work paid by-ton needs a price, per t or per ton/u],
  ["a price per area for tonnes", (day) => { Object.assign(day.choppers[0], { paid: "by-ton", price: "90 per ha" }); }, "/choppers/0/price", /money per area; money per tonne or ton takes per t or per ton/u],
  ["a negative price", (day) => { Object.assign(day.choppers[0], { paid: "by-area", price: "-90 per ha" }); }, "/choppers/0/price", /from 0 up to/u],
  ["a negative cost", (day) => { day.trucks[0].cost = "-85 per h"; }, "/trucks/0/cost", /from 0 per h/u],

  // variation
  ["a coefficient below nothing", (day) => { day.variation = { tip: -0.3 }; }, "/variation/tip", /is -0\.3: a coefficient of variation from 0 to 3/u],
  ["a coefficient beyond all", (day) => { day.variation = { tip: "400 %" }; }, "/variation/tip", /from 0 to 3/u],
  ["a normal that goes below zero", (day) => { day.variation = { tip: { shape: "normal", cv: 0.6 } }; }, "/variation/tip/cv", /from 0 to 0\.333 would do for normal/u],
  ["a uniform that goes below zero", (day) => { day.variation = { tip: { shape: "uniform", cv: 0.6 } }; }, "/variation/tip/cv", /from 0 to 0\.577 would do for uniform/u],
  ["a triangle out of order", (day) => { day.variation = { tip: { shape: "triangular", low: 5, mode: 4, high: 8 } }; }, "/variation/tip", /0 <= low <= mode <= high/u],
  ["a triangle with a corner missing", (day) => { day.variation = { tip: { shape: "triangular", low: 5, high: 8 } }; }, "/variation/tip", /triangular takes low, mode and high/u],
  ["a lognormal without a size", (day) => { day.variation = { tip: { shape: "lognormal" } }; }, "/variation/tip", /lognormal takes cv/u],
  ["an exponential with a size", (day) => { day.variation = { tip: { shape: "exponential", cv: 2 } }; }, "/variation/tip", /exponential takes nothing else/u],
  ["an activity nobody knows", (day) => { day.variation = { tipping: 0.3 }; }, "/variation/tipping", /no key "tipping" in variation/u],
  ["a distribution nobody knows", (day) => { day.variation = { tip: { shape: "bell" } }; }, "/variation/tip/shape", /exponential, lognormal/u],
  ["a word that is no variation", (day) => { day.variation = "wild"; }, "/variation", /none, typical, or a group of activities would do/u],

  // limits
  ["a million trucks", (day) => { day.trucks[0].count = 1e6; }, "/trucks/0/count", /from 1 to 500/u],
  ["too many trucks in all", (day) => { day.trucks = [{ ...day.trucks[0], count: 300 }, { ...day.trucks[0], count: 300 }]; }, "/trucks", /600 trucks in all: up to 500 would do/u],
  ["too many fields", (day) => { day.fields = Array.from({ length: LIMITS.fields + 1 }, () => day.fields[0]); }, "/fields", /is too long: a list of 1 to 200 fields/u],
  ["too many loads", (day) => { Object.assign(day.fields[0], { area: "5000 ha", yield: "200 t/ha" }); day.trucks[0].load = "1 t"; }, "/fields", /about 1,000,000 loads, where up to 100,000 would do/u],
  ["too many rows", (day) => { Object.assign(day.fields[0], { area: "5000 ha", rowLength: "10 m" }); }, "/fields", /rows, where up to 100,000 would do/u],
  ["a field of the size of a country", (day) => { day.fields[0].area = "1e300 ha"; }, "/fields/0/area", /up to 5000 ha/u],
];

describe("bad input is told with its place, what was found and what would do", () => {
  it.each(BAD)("%s", (_what, change, pointer, says) => {
    const problems = unsound(changed(change));
    expect(problems).toContainEqual({ pointer, detail: expect.stringMatching(says) });
    for (const { detail } of problems) expect(detail).toMatch(/^[^\n]+[.?]$/u);
  });

  it.each(BAD)("%s, and nothing else is complained of", (_what, change) => {
    expect(unsound(changed(change)).map(({ detail }) => detail)).toHaveLength(1);
  });
});

describe("a larger day", () => {
  const full = (change: (day: Day) => void) => unsound(changed(change, fullDay()));

  it("is refused when no field leads to one of its storages", () => {
    expect(full((day) => { day.fields[0].storage = "Old bunker"; })).toEqual([{ pointer: "/storage/0", detail: expect.stringMatching(/"Pad", to which no field leads/u) }]);
  });

  it("is refused when a storage of several has no crew of its own", () => {
    expect(full((day) => { delete day.storage[1].tractors; }).map(({ pointer }) => pointer)).toContain("/storage/1/tractors");
  });

  it("is refused when a tractor works at two storages, or at none", () => {
    expect(full((day) => { day.storage[1].tractors.push("Blade"); })).toEqual([{ pointer: "/storage/1/tractors/1", detail: expect.stringMatching(/works at storage\[0\] already/u) }]);
    expect(full((day) => { day.packing.tractors.push({ name: "Idle", mass: "9 t" }); })).toEqual([{ pointer: "/packing/tractors/2", detail: expect.stringMatching(/"Idle", who works nowhere/u) }]);
  });

  it("is refused when a chopper has no truck, or no field", () => {
    expect(full((day) => { day.trucks = [{ ...day.trucks[1] }]; })).toEqual([{ pointer: "/trucks", detail: expect.stringMatching(/leave "Big" without a truck/u) }]);
    expect(full((day) => { day.fields[1].chopper = "Big"; })).toEqual([{ pointer: "/choppers/1", detail: expect.stringMatching(/"Small", for which no field is left/u) }]);
  });

  it("is refused when a field names a storage twice", () => {
    expect(full((day) => { day.fields[0].storage = ["Pad", "Pad", "Old bunker"]; })).toEqual([{ pointer: "/fields/0/storage/1", detail: expect.stringMatching(/in this list already/u) }]);
  });
});

describe("many problems at once", () => {
  it("are told up to a limit, and the rest are counted", () => {
    const day = leastDay();
    for (let i = 0; i < 100; i += 1) day[`unknown${i}`] = 1;
    const problems = unsound(checkScenario(day));
    expect(problems).toHaveLength(LIMITS.problems + 1);
    expect(problems.at(-1)!.detail).toBe("There are 75 more problems; mend these first.");
  });
});

describe("a client's document", () => {
  it("that is no group at all is refused", () => {
    for (const document of [undefined, null, 1, "x", true, [], [1], () => 1, 10n, Symbol("x"), NaN, new Date(0), new Map()]) {
      expect(unsound(checkScenario(document))[0]!.detail).toMatch(/^(The scenario is .*|fields is missing.*)\.$/u);
    }
  });

  it("with a __proto__ of its own is refused, and changes no object", () => {
    const document = JSON.parse(`{"__proto__": {"polluted": true}, ${JSON.stringify(leastDay()).slice(1)}`);
    expect(unsound(checkScenario(document))).toEqual([{ pointer: "/__proto__", detail: "There is no key \"__proto__\"." }]);
    const nested = JSON.parse(JSON.stringify(leastDay()).replace('"area"', '"__proto__": {"area": "1 ha"}, "area"'));
    expect(unsound(checkScenario(nested))[0]).toMatchObject({ pointer: "/fields/0/__proto__" });
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  it("inherits nothing: values that stand in a prototype do not count", () => {
    expect(unsound(checkScenario(Object.create(leastDay()))).length).toBeGreaterThan(0);
  });

  it("deeper, wider or longer than any scenario is refused before it is looked at closely", () => {
    let deep: unknown = "x";
    for (let i = 0; i < 100_000; i += 1) deep = [deep];
    expect(unsound(checkScenario({ ...leastDay(), crop: deep }))[0]!.detail).toMatch(/more than 16 deep/u);
    expect(unsound(checkScenario({ ...leastDay(), fields: new Array(1e6).fill(0) }))[0]!.detail).toMatch(/a list of 1000000/u);
    expect(unsound(checkScenario(Object.fromEntries(Array.from({ length: 30_000 }, (_, i) => [`k${i}`, 1]))))[0]!.detail).toMatch(/30000 keys/u);
    const circle: Record<string, unknown> = leastDay();
    circle.crop = circle;
    expect(unsound(checkScenario(circle))[0]!.detail).toMatch(/deep|values/u);
  });
});

describe("a problem in a text", () => {
  const place = (text: string) => unsound(readScenario(text)).map(({ pointer, line, column }) => [pointer, line, column]);

  it("points at the key, at the item, or at what the missing thing should stand in", () => {
    expect(place("fields:\n  - area: 14 ha\n    yield: -1 t/ha\n    distance: 2 km\n")).toEqual(expect.arrayContaining([["/fields/0/yield", 3, 5], ["/choppers", 1, 1]]));
    expect(place("fields:\n  - area: 14 ha\n")).toEqual(expect.arrayContaining([["/fields/0/yield", 2, 5]]));
    expect(place("fields:\n  - area: 14 ha\n  - Long\n")).toEqual(expect.arrayContaining([["/fields/1", 3, 5]]));
    expect(place("# day\n\n  wether: fine\n")).toEqual(expect.arrayContaining([["/wether", 3, 3]]));
  });
});
