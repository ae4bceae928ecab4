import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { readScenario } from "../../sim/scenario/read.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { TYPICAL } from "../../sim/scenario/typical.ts";
import { weighingsOf, type Weighing } from "../../sim/study/tickets/loads.ts";
import { fullLoads, loneStays, patchOf } from "../../sim/study/tickets/patch.ts";
import { patchedText } from "../../sim/study/tickets/patchtext.ts";
import { FOLDER, MEADOW } from "./sets.ts";

const text = readFileSync(join(FOLDER, "../low-meadow.yaml"), "utf8");
const read = (written: string): Scenario => {
  const checked = readScenario(written);
  if ("problems" in checked) throw new Error(checked.problems[0]!.detail);
  return checked.scenario;
};
/** What really was: heavier loads and slower tips than the file has. */
const TRUTH = { load: 17_500, tip: 330 } as const;
const real: Scenario = { ...MEADOW, trucks: MEADOW.trucks.map((kind) => ({ ...kind, ...TRUTH })) };
const weighings = Array.from({ length: 5 }, (_, rehearsal) => weighingsOf(rehearseDay(real, { seed: 9, rehearsal }))).flatMap((day, i) =>
  day.map((weighing) => ({ ...weighing, at: weighing.at + i * 86_400, out: weighing.out === null ? null : weighing.out + i * 86_400 })));

const load = (at: number, out: number | null, mass = 10_000): Weighing => ({ truck: 1, at, out, mass });

describe("What tickets change in a scenario", () => {
  const patch = patchOf(MEADOW, weighings);
  const patched = read(patchedText(text, patch));

  it("is the load and the time to tip that really were, as near as so many tickets allow, and how much they vary", () => {
    const [kind] = patched.trucks;
    const n = (path: string) => patch.changes.find((change) => change.path.join(".") === path)!.n;
    // Four standard errors by the file's own variation; the file is written to 10 kg and to hundredths of a minute.
    expect(Math.abs(kind!.load / TRUTH.load - 1)).toBeLessThan((4 * TYPICAL.load) / Math.sqrt(n("trucks.0.load")) + 0.001);
    expect(Math.abs(kind!.tip / TRUTH.tip - 1)).toBeLessThan((4 * TYPICAL.tip) / Math.sqrt(n("trucks.0.tip")) + 0.001);
    const { load: varies } = patched.variation;
    // sigma of a lognormal has a relative standard error of 1 / sqrt(2n); the gamma's cv the same.
    expect(Math.abs((varies as { cv: number }).cv / TYPICAL.load - 1)).toBeLessThan(4 / Math.sqrt(2 * n("variation.load")) + 0.02);
  });

  it("says why in words of the yard, counted on the tickets themselves, and how the shape was chosen apart from that", () => {
    const varies = patch.changes.find(({ path }) => path.join(".") === "variation.load")!;
    const [, near, all, share] = /^(\d+) of (\d+) full loads lie within ([\d.]+) % of their mean; the shape that is taken describes them well$/.exec(varies.because)!.map(Number);
    const loads = fullLoads(weighings);
    const mean = loads.reduce((sum, mass) => sum + mass, 0) / loads.length;
    expect(all).toBe(loads.length);
    // The share is printed to a tenth of a per cent: loads that near to its edge may fall on either side.
    const within = (percent: number) => loads.filter((mass) => Math.abs(mass / mean - 1) <= percent / 100).length;
    expect(near).toBeGreaterThanOrEqual(within(share! - 0.06));
    expect(near).toBeLessThanOrEqual(within(share! + 0.06));
    expect(near! / all!).toBeGreaterThan(0.5);
    expect(varies.fit).toContain("samples drawn from it");
    for (const { because, value, fit } of patch.changes) {
      expect(because).not.toMatch(/lognormal|gamma|weibull|samples|Akaike/iu);
      expect(fit === null).toBe(typeof value === "string");
    }
  });

  it("leaves the rest of the file as it was, comments and all, and says behind each value how many tickets it comes from", () => {
    const written = patchedText(text, patch);
    expect(written).toContain("# One long field, one bunker");
    expect(written).toContain("weighing: {time: 1 min, lanes: 1}");
    expect(patchedText(text.replaceAll("{", "{ ").replaceAll("}", " }"), patch)).toContain("weighing: { time: 1 min, lanes: 1 }");
    expect(written).toContain(`# From weigh tickets: trucks[0].load, ${patch.changes[0]!.n} tickets`);
    const { trucks, variation, ...rest } = patched;
    const { trucks: before, variation: varied, ...same } = MEADOW;
    expect(rest).toEqual(same);
    expect(trucks.map(({ load: _, tip: __, ...kind }) => kind)).toEqual(before.map(({ load: _, tip: __, ...kind }) => kind));
    expect({ ...variation, load: null, tip: null }).toEqual({ ...varied, load: null, tip: null });
  });

  it("keeps a file without luck without it, but for what the tickets tell", () => {
    const { variation } = read(patchedText(text.replace("variation: typical", "variation: none"), patch));
    expect(Object.entries(variation).filter(([, shape]) => shape !== null).map(([activity]) => activity).sort()).toEqual(["load", "tip"]);
  });

  it("is nothing where there are no more than a few tickets, and each thing that is not told has its reason", () => {
    const few = patchOf(MEADOW, weighings.slice(0, 5));
    expect(few.changes).toEqual([]);
    for (const word of ["load", "tip", "Speeds", "chopper", "yield", "density"]) expect(few.cannot.join("\n")).toContain(word);
    expect(patchedText(text, few)).toContain("name: Low Meadow, day one");
  });

  it("does not tell the time to tip without a time of leaving, nor loads by kind where there are several kinds", () => {
    expect(patchOf(MEADOW, weighings.map((each) => ({ ...each, out: null }))).cannot.join("\n")).toContain("when a truck came and not when it left");
    const two = { ...MEADOW, trucks: [...MEADOW.trucks, { ...MEADOW.trucks[0]!, kind: "Other" }] };
    expect(patchOf(two, weighings).changes).toEqual([]);
  });

  it("leaves out of the time to tip whoever stood there through a stop, and says so", () => {
    const outs = [...Array.from({ length: 12 }, (_, i) => 220 + 5 * i), 2900];
    const { changes } = patchOf(MEADOW, outs.map((out, i) => load(i * 3600, i * 3600 + out)));
    expect(changes.find(({ path }) => path.join() === "trucks,0,tip")).toEqual({
      path: ["trucks", 0, "tip"], value: "4.13 min", n: 12, because: "mean time from the scale until it left, of trucks that found nobody at the storage; one that stood there more than three times as long as usual left out", fit: null,
    });
  });

  it("counts one truck as one, and says of those that left as they came that nothing is known", () => {
    const stays = (...outs: readonly (number | null)[]) => patchOf(MEADOW, outs.map((out, i) => load(i * 600, out === null ? null : i * 600 + out))).cannot.find((sentence) => sentence.startsWith("The time to tip"));
    expect(stays(700, 700, 600)).toBe("The time to tip: only one truck found nobody at the storage, and of the others it is not known how long they waited.");
    expect(stays(300, 700, 600)).toContain("only 2 trucks found nobody at the storage");
    expect(stays(0, 0, 0)).toBe("The time to tip: no ticket has a truck at the storage for any time at all.");
  });

  it("does not put more into a truck than its volume holds", () => {
    const small = { ...MEADOW, trucks: MEADOW.trucks.map((kind) => ({ ...kind, volume: 40 })) };
    expect(patchOf(small, weighings).cannot.join("\n")).toContain("its volume holds 13.60 t at the loose density of the file. One of the two is wrong there.");
    // Filled to its volume, a truck brings that much give or take the luck of its loads.
    const filled: Scenario = { ...MEADOW, trucks: MEADOW.trucks.map((kind) => ({ ...kind, volume: 16_000 / MEADOW.crop.looseDensity, load: 18_000 })) };
    const masses = (by: number) => Array.from({ length: 40 }, (_, i) => load(i * 600, null, 16_000 + by + (i % 2 === 0 ? 500 : -500)));
    for (const by of [-50, 50]) {
      const { changes, cannot } = patchOf(filled, masses(by));
      expect(changes.filter(({ path }) => path[0] === "trucks")).toEqual([]);
      expect(cannot[0]).toBe(`The mass that a truck may carry: its volume is full first, by the file at 16.00 t, and the ${by < 0 ? "15.95" : "16.05"} t on the tickets bear that out.`);
    }
    expect(patchOf(filled, masses(400)).cannot[0]).toContain("One of the two is wrong there.");
    expect(patchOf(filled, masses(-400)).changes[0]).toMatchObject({ path: ["trucks", 0, "load"], value: "15.60 t" });
  });
});

describe("Of the weighings", () => {
  it("full loads are those that are no rest from the end of a field", () => {
    const masses = [16_000, 15_600, 16_300, 15_900, 16_100, 9_000, 12_500];
    expect(fullLoads(masses.map((mass, i) => load(i, null, mass))).sort()).toEqual([15_600, 15_900, 16_000, 16_100, 16_300]);
    expect(fullLoads([])).toEqual([]);
    expect(fullLoads([load(0, null), load(1, null), load(2, null, 4_000)])).toEqual([10_000, 10_000]);
  });

  it("only those tell the time to tip that found nobody there", () => {
    expect(loneStays([load(0, 300), load(350, 800)], [{ at: 400, for: 100 }])).toEqual([300, 350]);
    expect(loneStays([load(0, 300), load(200, 700), load(650, 900), load(1000, 1240), load(1240, 1500)])).toEqual([300, 240, 260]);
  });
});
