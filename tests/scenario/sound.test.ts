import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { DEFAULTS } from "../../sim/scenario/defaults.ts";
import { hashOf } from "../../sim/scenario/hash.ts";
import { ACTIVITIES } from "../../sim/scenario/types.ts";
import { changed, checkScenario, fullDay, leastDay, readScenario, sound } from "./days.ts";

const lowMeadow = readFileSync(new URL("../../scenarios/low-meadow.yaml", import.meta.url), "utf8");

describe("the worked example of the format", () => {
  const scenario = sound(readScenario(lowMeadow));

  it("comes out in strict SI, each figure converted by hand here", () => {
    expect(scenario.fields).toEqual([{
      name: "Long Strip", area: 140_000, yield: 4.5, distance: 2400, rowLength: 420, dryMatter: 0.34, storages: [0], chopper: null, owner: null, opening: null,
    }]);
    expect(scenario.choppers[0]).toMatchObject({ name: "Chopper", width: 6, turnTime: 25, changeover: 20, costPerHour: 420 });
    expect(scenario.choppers[0]!.speed).toBeCloseTo(6 / 3.6, 11);
    expect(scenario.choppers[0]!.throughput).toBeCloseTo(160 / 3.6, 9);
    expect(scenario.trucks[0]).toMatchObject({ kind: "Tipper", count: 5, load: 16_000, volume: null, tip: 240, chopper: null, costPerHour: 85 });
    expect(scenario.weighing).toEqual({ time: 60, lanes: 1 });
    expect(scenario.storages[0]).toMatchObject({ form: "bunker", width: 12, length: 45, height: 3.2, wedge: 3, sideSlope: 0, topWidth: null, meanDepth: null, apron: 60_000, tippingPlaces: 1 });
    expect(scenario.storages[0]!.tractors.map(({ name, mass, spreads }) => [name, mass, spreads])).toEqual([["Blade", 14_000, expect.closeTo(220 / 3.6, 9)], ["Roller", 16_000, null]]);
    expect(scenario.packing).toEqual({ layer: 0.15, layerTerm: true, wedgeRoom: "by-width", whenBehind: "hold-then-bury", finish: 2700 });
    expect(scenario.targets).toEqual({ dryDensity: 240, poreSpace: 0.4 });
    expect(scenario.shift).toEqual({ start: 7 * 3600, end: 20 * 3600, breaks: [{ at: 12 * 3600, for: 1800 }] });
    expect(scenario.crop).toEqual({ kind: "corn", dryMatter: 0.34, chopLength: 0.017, looseDensity: 340 });
  });

  it("is the same written as JSON, tabs and all", () => {
    const day = { ...leastDay(), name: "A \"quoted\" name" };
    const text = JSON.stringify(day, null, "\t");
    expect(sound(readScenario(text))).toEqual(sound(checkScenario(day)));
  });

  it("cannot be changed by whoever holds it, deep down", () => {
    expect(() => Object.assign(scenario.storages[0]!.tractors[0]!, { mass: 1 })).toThrow(TypeError);
    expect(() => Object.assign(scenario.variation.tip!, { cv: 1 })).toThrow(TypeError);
  });
});

describe("what the format allows", () => {
  it("takes every key there is, each of them to its place", () => {
    const scenario = sound(checkScenario(fullDay()));
    expect(scenario.fields[0]).toMatchObject({ storages: [0, 1], chopper: 0, owner: "The widow", opening: { time: 1200, pace: 0.6 }, dryMatter: 0.35 });
    expect(scenario.fields[1]).toMatchObject({ storages: [1], chopper: null, dryMatter: 0.38 });
    expect(scenario.choppers.map(({ paid, price, breakdowns, power }) => [paid, price, breakdowns, power])).toEqual([["by-ton", 9, { between: 108_000, repair: 2700 }, 500], ["by-area", 80, null, 350]]);
    // 50 m3 x 310 kg/m3 = 15.5 t is the lesser for the lorry, 40 m3 x 310 = 12.4 t for the trailer.
    expect(scenario.trucks.map(({ load, volume, chopper, lends, breakdowns }) => [load, volume, chopper, lends, breakdowns])).toEqual([
      [15_500, 50, 0, true, null], [12_400, 40, 1, false, { between: 288_000, repair: 7200 }],
    ]);
    expect(scenario.lane).toEqual({ length: 400, speed: expect.closeTo(20 / 3.6, 11), meeting: 20 });
    expect(scenario.storages[0]).toMatchObject({ form: "pile", wedge: 4, sideSlope: 3, topWidth: 6, meanDepth: 2, tipsOnPile: true, cover: "barrier", unloaderReach: 4, capitalCost: 20_000, life: 15 });
    expect(scenario.storages.map(({ tractors }) => tractors.map(({ name }) => name))).toEqual([["Blade", "Heavy"], ["Second"]]);
    expect(scenario.storages[0]!.tractors[0]).toMatchObject({ blade: 3.6, maxMass: 16_000, hireable: false, breakdowns: { between: 180_000, repair: 3600 } });
    expect(scenario.storages[0]!.tractors[1]).toMatchObject({ hireable: true, breakdowns: { between: 360_000, repair: 3600 } });
    expect(scenario.packing).toEqual({ layer: 0.12, layerTerm: false, wedgeRoom: "off", whenBehind: "ease", finish: 1800 });
    expect(scenario.herd).toEqual({ head: 400, intake: 11, season: "summer" });
    expect(scenario.money).toEqual({ currency: "GBP", labourPerHour: 24, fuelPerLitre: 1.3, feedValuePerTonne: 190 });
  });

  it("reads moisture as the other side of dry matter, for the crop and for a field", () => {
    expect(sound(changed((day) => { day.crop = { moisture: "66 %" }; })).crop.dryMatter).toBe(0.34);
    expect(sound(changed((day) => { day.crop = { moisture: 0.66, dryMatter: "34 %" }; })).crop.dryMatter).toBe(0.34);
    expect(sound(changed((day) => { day.fields[0].moisture = "70 %"; })).fields[0]!.dryMatter).toBe(0.3);
  });

  it("reads a share as a percentage or as a decimal", () => {
    for (const share of ["40 %", 0.4, "0.40", "40%"]) expect(sound(changed((day) => { day.targets = { poreSpace: share }; })).targets.poreSpace).toBe(0.4);
  });

  it("lets a truck carry the lesser of its mass and its volume, whichever are given", () => {
    const load = (truck: Record<string, unknown>) => sound(changed((day) => { day.crop = { looseDensity: "340 kg/m3" }; day.trucks = [{ count: 1, ...truck }]; })).trucks[0]!.load;
    expect(load({ load: "16 t", volume: "40 m3" })).toBe(13_600);
    expect(load({ load: "10 t", volume: "40 m3" })).toBe(10_000);
    expect(load({ volume: "40 m3" })).toBe(13_600);
  });

  it("gives a pile the slope that its top width says, or the top width that its slope says", () => {
    const pile = (more: Record<string, unknown>) => sound(changed((day) => { day.storage = [{ form: "pile", width: "24 m", length: "60 m", height: "3 m", ...more }]; })).storages[0]!;
    expect(pile({})).toMatchObject({ sideSlope: 3, topWidth: 6 });
    expect(pile({ topWidth: "12 m" })).toMatchObject({ sideSlope: 2, topWidth: 12 });
    expect(pile({ sideSlope: "1:3.5" })).toMatchObject({ sideSlope: 3.5, topWidth: 3 });
  });

  it("hands all tractors to the one storage, or to each storage those that it names", () => {
    const day = fullDay();
    expect(sound(changed(() => undefined)).storages[0]!.tractors).toHaveLength(1);
    expect(sound(checkScenario(day)).storages.map(({ tractors }) => tractors.length)).toEqual([2, 1]);
  });

  it("leads a silent field to all storages, in the file's order", () => {
    const scenario = sound(changed((day) => { delete day.fields[0].storage; }, fullDay()));
    expect(scenario.fields[0]!.storages).toEqual([0, 1]);
  });

  it("lets a pile be tipped on when a kind of truck says so", () => {
    const scenario = sound(changed((day) => { delete day.storage[0].tipsOnPile; day.trucks[0].tipsOnPile = "yes"; }, fullDay()));
    expect(scenario.storages.map(({ tipsOnPile }) => tipsOnPile)).toEqual([true, false]);
  });

  it("reads on, off, yes, no, true and false as switches", () => {
    for (const [word, on] of [["on", true], ["off", false], ["yes", true], ["no", false], [true, true], [false, false]] as const) {
      expect(sound(changed((day) => { day.packing.layerTerm = word; })).packing.layerTerm).toBe(on);
    }
    expect(sound(readScenario(lowMeadow.replace("  layer: 15 cm", "  layer: 15 cm\n  layerTerm: off"))).packing.layerTerm).toBe(false);
  });

  it("takes an unquoted slope or clock time from YAML as it is written", () => {
    const text = lowMeadow.replace('"1:3"', "1:3").replace('"07:00"', "07:00").replace('"12:00"', "12:00");
    expect(sound(readScenario(text))).toEqual(sound(readScenario(lowMeadow)));
  });
});

describe("defaults", () => {
  const silences = (day: Record<string, any>) => {
    const checked = checkScenario(day);
    if ("problems" in checked) throw new Error(checked.problems.map(({ detail }) => detail).join("\n"));
    return checked.defaults;
  };

  it("are all in the table, all readable, and each is told when it applies", () => {
    const pile = { ...leastDay(), storage: [{ form: "pile", width: "24 m", length: "60 m", height: "3 m" }] };
    const partly = { ...leastDay(), lane: { length: "100 m", speed: "20 km/h" }, weighing: { time: "1 min" }, herd: { head: 90, intake: "10 kg/day" } };
    const tied = leastDay();
    tied.choppers[0].name = "One";
    tied.trucks[0].chopper = "One";
    const campaign = { ...leastDay(), campaign: { starts: "2026-09-14" } };
    const gated = { ...leastDay(), fields: [{ area: "14 ha", yield: "45 t/ha", gate: "52.1, 8.3" }], storage: [{ ...leastDay().storage[0], at: "52.11, 8.31" }] };
    const told = [leastDay(), pile, partly, tied, campaign, gated].flatMap(silences).filter(({ mark }) => mark !== "measured on the map").map(({ path }) => path.replaceAll(/\[\d+\]/gu, "[]").replace("packing.tractors[]", "tractors[]"));
    expect([...new Set(told)].sort()).toEqual(Object.keys(DEFAULTS).sort());
  });

  it("carry a mark in full words and a value as a person would write it", () => {
    const marks = ["published", "common practice, no source", "assumption of this project", "invented for the demo"];
    for (const { value, mark } of silences(leastDay())) {
      expect(marks).toContain(mark);
      expect(value.trim()).not.toBe("");
    }
  });

  it("are none for a file that says everything", () => {
    expect(silences(fullDay())).toEqual([]);
  });

  it("give the same scenario as when they are written out", () => {
    const written = leastDay();
    for (const { path, value } of silences(leastDay())) {
      const steps = path.split(/[.[\]]+/u).filter((step) => step !== "").map((step) => (/^\d+$/u.test(step) ? Number(step) : step));
      let place: any = written;
      for (const step of steps.slice(0, -1)) place = place[step] ??= {};
      const last = steps.at(-1)!;
      if (last === "breaks") place[last] = [];
      else place[last] = ["seed", "lanes", "tippingPlaces", "capitalCost", "people"].includes(String(last)) ? Number(value) : value;
    }
    expect(sound(checkScenario(written))).toEqual(sound(checkScenario(leastDay())));
    expect(silences(written)).toEqual([]);
  });

  it("hang on the crop where they must: a wetter crop lies heavier in the truck", () => {
    const loose = (dryMatter: string) => sound(changed((day) => { day.crop = { dryMatter }; })).crop.looseDensity;
    // 112 kg DM/m3, published, whatever the moisture.
    expect(loose("28 %")).toBe(400);
    expect(loose("40 %")).toBe(280);
    expect(sound(changed((day) => { day.crop = { kind: "grass" }; })).crop.dryMatter).toBe(0.38);
  });
});

describe("variation", () => {
  const variation = (written: unknown) => sound(changed((day) => { day.variation = written; })).variation;

  it("none is none anywhere", () => {
    expect(Object.values(variation("none"))).toEqual(ACTIVITIES.map(() => null));
  });

  it("typical is lognormal with the coefficients of the model, and is what holds in silence", () => {
    const coefficients = { cutting: 0.1, loaded: 0.15, empty: 0.15, weighing: 0.3, tip: 0.4, spread: 0.2, load: 0.037, yield: 0.1 };
    for (const activity of ACTIVITIES) expect(variation("typical")[activity]).toEqual({ kind: "lognormal", cv: coefficients[activity] });
    expect(variation(undefined)).toEqual(variation("typical"));
  });

  it("by activity leaves the others without any", () => {
    expect(variation({ tip: "30 %" })).toEqual({ ...variation("none"), tip: { kind: "lognormal", cv: 0.3 } });
    expect(variation({ tip: 0.3, load: 0, empty: "none", spread: { shape: "fixed" } })).toEqual({ ...variation("none"), tip: { kind: "lognormal", cv: 0.3 } });
  });

  it("takes every kind of distribution", () => {
    expect(variation({
      cutting: { shape: "exponential" }, load: { shape: "normal", cv: "5 %" }, loaded: { shape: "gamma", cv: 0.2 }, empty: { shape: "weibull", cv: 0.5 },
      weighing: { shape: "erlang", stages: 3 }, tip: { shape: "lognormal", cv: 0.4 }, spread: { shape: "uniform", cv: 0.2 },
    })).toEqual({
      cutting: { kind: "exponential" }, load: { kind: "normal", cv: 0.05 }, loaded: { kind: "gamma", cv: 0.2 }, empty: { kind: "weibull", cv: 0.5 },
      weighing: { kind: "erlang", stages: 3 }, tip: { kind: "lognormal", cv: 0.4 }, spread: { kind: "uniform", cv: 0.2 }, yield: null,
    });
  });

  it("of a triangle counts by its shape only: the mean of the factor is 1 whatever the measure", () => {
    const triangle = variation({ tip: { shape: "triangular", low: 3, mode: 4, high: 8 } }).tip;
    expect(triangle).toEqual({ kind: "triangular", low: 0.6, mode: 0.8, high: 1.6 });
    expect(variation({ tip: { shape: "triangular", low: 30, mode: 40, high: 80 } }).tip).toEqual(triangle);
  });

  it("of a uniform between two ends is its standard deviation over its mean", () => {
    const flat = variation({ tip: { shape: "uniform", low: 2, high: 6 } }).tip;
    expect(flat).toEqual({ kind: "uniform", cv: expect.closeTo(4 / Math.sqrt(12) / 4, 11) });
  });
});

describe("the hash of a scenario", () => {
  const scenario = sound(checkScenario(fullDay()));

  it("is 128 bits in hex, the same for the same content whatever the order of keys and the way it is written", () => {
    expect(hashOf(scenario)).toMatch(/^[0-9a-f]{32}$/u);
    expect(hashOf(Object.fromEntries(Object.entries(scenario).reverse()) as unknown as typeof scenario)).toBe(hashOf(scenario));
    expect(hashOf(JSON.parse(JSON.stringify(scenario)))).toBe(hashOf(scenario));
    expect(hashOf(sound(changed((day) => { day.fields[0].area = "90000 m2"; }, fullDay())))).toBe(hashOf(scenario));
  });

  it("differs when anything in the scenario differs", () => {
    const seen = new Set([hashOf(scenario)]);
    const changes: ((day: Record<string, any>) => void)[] = [
      (day) => { day.name = "Another"; }, (day) => { day.seed = 8; }, (day) => { day.fields[1].owner = "Somebody"; },
      (day) => { day.storage[0].apron = "41 t"; }, (day) => { day.variation.tip.mode = 4; }, (day) => { day.fields.reverse(); },
    ];
    for (const change of changes) seen.add(hashOf(sound(changed(change, fullDay()))));
    expect(seen.size).toBe(changes.length + 1);
  });
});
