/** Documents the tests of this room begin from. */
import { checkScenario, readScenario } from "../../sim/scenario/read.ts";
import type { Checked } from "../../sim/scenario/read.ts";
import type { Problem, Scenario } from "../../sim/scenario/types.ts";

/** The least a scenario can say: only what has no default. */
export function leastDay(): Record<string, any> {
  return {
    fields: [{ area: "14 ha", yield: "45 t/ha", distance: "2.4 km" }],
    choppers: [{ width: "6 m", speed: "6 km/h", throughput: "160 t/h" }],
    trucks: [{ count: 5, load: "16 t" }],
    storage: [{ form: "bunker", width: "12 m", length: "45 m", height: "3.2 m" }],
    packing: { tractors: [{ mass: "14 t", spreads: "220 t/h" }] },
  };
}

/** A document in which every key of the format stands. */
export function fullDay(): Record<string, any> {
  return {
    name: "Everything said",
    crop: { kind: "grass", dryMatter: "36 %", chopLength: "20 mm", looseDensity: "310 kg/m3" },
    fields: [
      {
        name: "Hill", area: "9 ha", yield: "22 t/ha", distance: "3 km", rowLength: "300 m", dryMatter: "35 %", storage: ["Pad", "Old bunker"],
        chopper: "Big", owner: "The widow", opening: { time: "20 min", pace: "60 %" },
        outline: { type: "Polygon", coordinates: [[[8.29, 52.1], [8.2944, 52.1], [8.2944, 52.1027], [8.29, 52.1027], [8.29, 52.1]]] }, gate: "52.1, 8.29",
      },
      { name: "Vale", area: "6 ha", yield: "25 t/ha", distance: "1.5 km", rowLength: "250 m", moisture: "62 %", storage: "Old bunker" },
    ],
    choppers: [
      {
        name: "Big", width: "8 m", speed: "7 km/h", throughput: "180 t/h", turnTime: "20 s", changeover: "15 s", move: "10 min", cost: "450 per h",
        paid: "by-ton", price: "9 per t", breakdowns: { between: "30 h", repair: "45 min" }, power: "500 kW",
      },
      { name: "Small", width: "6 m", speed: "6 km/h", throughput: "120 t/h", turnTime: "20 s", changeover: "15 s", move: "10 min", cost: "380 per h", paid: "by-area", price: "80 per ha", breakdowns: "none", power: "350 kW" },
    ],
    trucks: [
      { kind: "Lorry", count: 3, load: "20 t", volume: "50 m3", loaded: "40 km/h", empty: "45 km/h", tip: "3 min", chopper: "Big", lends: "on", tipsOnPile: "off", cost: "95 per h", breakdowns: "none", power: "300 kW" },
      { kind: "Trailer", count: 2, load: "14 t", volume: "40 m3", loaded: "28 km/h", empty: "34 km/h", tip: "4 min", chopper: "Small", lends: "off", cost: "80 per h", power: "150 kW" },
    ],
    lane: { length: "400 m", speed: "20 km/h", meeting: "20 s" },
    weighing: { time: "1 min", lanes: 1 },
    storage: [
      {
        name: "Pad", form: "pile", width: "24 m", length: "60 m", height: "3 m", wedge: "1:4", sideSlope: "1:3", topWidth: "6 m", meanDepth: "2 m", apron: "40 t", tippingPlaces: 2,
        tipsOnPile: true, tractors: ["Blade", { name: "Heavy", mass: "20 t", rolling: "75 %", width: "3 m", hireable: "on", cost: "100 per h" }], cover: "barrier", unloaderReach: "4 m", capitalCost: 20000, life: "15 years", at: { lat: 52.08, lon: 8.27 },
      },
      {
        name: "Old bunker", form: "bunker", width: "10 m", length: "40 m", height: "2.5 m", wedge: "1:3", apron: "50 t", tippingPlaces: 1, tractors: ["Second"], cover: "plain",
        wallRating: "20 kPa", capitalCost: 60000, life: "30 years",
      },
    ],
    packing: {
      tractors: [
        { name: "Blade", mass: "14 t", spreads: "220 t/h", rolling: "80 %", blade: "3.6 m", maxMass: "16 t", width: "2.6 m", power: "220 kW", hireable: "off", cost: "95 per h", breakdowns: { between: "50 h", repair: "1 h" } },
        { name: "Second", mass: "12 t", spreads: "150 t/h", rolling: "80 %", width: "2.5 m", hireable: "off", cost: "90 per h" },
      ],
      layer: "12 cm", layerTerm: "off", wedgeRoom: "off", whenBehind: "ease", finish: "30 min",
    },
    targets: { dryDensity: "230 kg/m3", poreSpace: 0.42 },
    shift: { start: "06:30", end: "21:00", breaks: [{ at: "12:00", for: "30 min" }, { at: "17:00", for: "15 min" }] },
    breakdowns: { choppers: "none", trucks: { between: "80 h", repair: "2 h" }, tractors: { between: "100 h", repair: "1 h" } },
    variation: { cutting: 0.1, load: "4 %", loaded: { shape: "gamma", cv: 0.2 }, empty: "none", weighing: { shape: "erlang", stages: 4 }, tip: { shape: "triangular", low: 2, mode: 3, high: 7 }, spread: { shape: "uniform", low: 0.8, high: 1.2 }, yield: { shape: "normal", cv: "8 %" } },
    herd: { head: 400, intake: "11 kg/day", season: "summer" },
    covering: { plain: "0.30 per m2", barrier: "0.70 per m2", people: 5, pace: "250 m2/h" },
    losses: { effluent: "on", fermentation: "on", density: "off", topLayer: "on", face: true },
    search: {
      trucks: { kind: "Trailer", from: 2, to: 5 },
      tractors: { storage: "Pad", from: 1, to: 3, list: [
        { name: "Hired heavy", mass: "22 t", rolling: "80 %", width: "3 m", maxMass: "24 t", power: "260 kW", hireable: "on", cost: "120 per h", count: 2 },
        { name: "Hired light", mass: "11 t", rolling: "80 %", width: "2.5 m", hireable: "off", cost: "80 per h", breakdowns: "none" },
      ] },
      layers: ["10 cm", "15 cm"], rules: ["hold", "bury"], pace: ["85 %", "100 %"], targets: { finishBy: "20:30", waiting: "10 %", relation: "60 %" },
    },
    campaign: { starts: "2026-05-18", measured: "2026-05-17", drying: "1 % per h", rain: ["2026-05-19", "2026-05-21"], dew: "09:30", days: 8 },
    labour: "24 per h", fuelPrice: "1.30 per L", feedValue: "190 per t", currency: "GBP", seed: 7,
  };
}

/** The scenario; fails the test, naming the problems, when there is none. */
export function sound(checked: Checked): Scenario {
  if ("problems" in checked) throw new Error(checked.problems.map(({ detail }) => detail).join("\n"));
  return checked.scenario;
}

/** The problems; fails the test when the document is sound. */
export function unsound(checked: Checked): readonly Problem[] {
  if ("scenario" in checked) throw new Error("sound, where problems were expected");
  return checked.problems;
}

/** Checks a document with something changed. */
export function changed(change: (day: Record<string, any>) => void, day = leastDay()): Checked {
  change(day);
  return checkScenario(day);
}

export { checkScenario, readScenario };
