import { describe, expect, it } from "vitest";
import { withPackers } from "../../sim/study/change.ts";
import { compare } from "../../sim/study/compare.ts";
import { multiples, MOST_MULTIPLES, type MultiplesOptions } from "../../sim/study/multiples.ts";
import { carryOut } from "../../sim/study/work.ts";
import { handBounds } from "../../sim/findings/hand.ts";
import { blade, bunker, field, NO_VARIATION, roller, trucks } from "../harvest/plan.ts";
import { smallDay, smallWithTrucks } from "./small.ts";

const many = (options: MultiplesOptions, scenario = smallDay({ storages: [bunker({ tractors: [blade(20_000), roller(22_000), roller(22_000, { name: "Third" })] })], fields: [field({ area: 60_000, distance: 4000 })] })) =>
  carryOut(multiples(scenario, { rehearsals: 12, ...options }));
const result = many({ from: 1, to: 8 });

describe("The same small summary for many numbers of trucks", () => {
  it("comes for each number in turn, each what a comparison says of it", () => {
    expect(result.multiples.map(({ count }) => count)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    const { plans, differences } = carryOut(compare([smallWithTrucks(4), smallWithTrucks(5)], { rehearsals: 12 }));
    const [four, five] = many({ from: 4, to: 5 }, smallDay()).multiples;
    expect(four!.pace).toEqual(plans[0]!.measures.deliveryRate);
    expect(five!.closedAt).toEqual(plans[1]!.closedAt);
    expect(five!.more!.by.pace.mean).toBeCloseTo(differences[0]!.figures.deliveryRate!.mean, 9);
    expect(four!.more).toBeNull();
  });

  it("shows where the chopper's time goes: less waiting for trucks with each further one, until there is none left to save", () => {
    const waiting = result.multiples.map(({ chopper: time }) => time!.waitingForTrucks);
    waiting.slice(1).forEach((share, i) => expect(share).toBeLessThanOrEqual(waiting[i]! + 1e-9));
    expect(waiting[0]).toBeGreaterThan(0.5);
    expect(waiting.at(-1)).toBeLessThan(0.02);
    for (const { chopper: time } of result.multiples) expect(time!.cutting + time!.waitingForTrucks + time!.waitingForStorage).toBeLessThanOrEqual(1);
  });

  it("says from how many trucks on one more only waits: about as many as the hand calculation asks for, since bunching takes a little more", () => {
    const { cutting, hauling } = handBounds(smallWithTrucks(1, { fields: [field({ area: 60_000, distance: 4000 })] }));
    const byHand = Math.ceil(cutting / hauling);
    expect(result.enough).toBeGreaterThanOrEqual(byHand - 1);
    expect(result.enough).toBeLessThanOrEqual(byHand + 2);
    expect(result.inWords).toContain(`From ${result.enough} trucks on`);
    expect(result.multiples[0]!.bottleneck).toBe("hauling");
    expect(result.multiples.at(-1)!.bottleneck).toBe("cutting");
  });

  it("says of a day of one load that one truck is enough", () => {
    expect(many({ from: 1, to: 3, rehearsals: 1 }, smallDay({ fields: [field({ area: 3000 })], variation: NO_VARIATION })).inWords).toMatch(/^From 1 truck on, one more /u);
  });

  it("speaks of one truck in the singular, and claims nothing of one more where only one number was rehearsed", () => {
    const near = smallWithTrucks(1, { fields: [field({ area: 60_000, distance: 0 })], trucks: [trucks(1, { load: 100_000, tip: 1 })], weighing: null });
    expect(many({ from: 1, to: 3, rehearsals: 3 }, near).inWords).toMatch(/^From 1 truck on, one more /u);
    expect(many({ from: 2, to: 2, rehearsals: 3 }).inWords).toBe("One number alone does not tell what one more would do.");
  });

  it("takes a few around what there is when nobody says how many, and the kind of which there are most", () => {
    const mixed = smallDay({ trucks: [trucks(1, { kind: "Big" }), trucks(4)] });
    const { kind, now, multiples: shown } = many({}, mixed);
    expect({ kind, now, from: shown[0]!.count, to: shown.at(-1)!.count }).toEqual({ kind: "Tipper", now: 4, from: 2, to: 7 });
  });

  it("goes over packing tractors as well: the present number is the plan itself, each further one packs denser until one more only waits", () => {
    const scenario = smallDay({ storages: [bunker({ tractors: [blade(), roller()] })] });
    const over = many({ over: "tractors", from: 0, to: 6, rehearsals: 8 }, scenario);
    expect({ kind: over.kind, now: over.now, counts: over.multiples.map(({ count }) => count) }).toEqual({ kind: scenario.storages[0]!.name, now: 1, counts: [0, 1, 2, 3, 4, 5, 6] });
    const { plans } = carryOut(compare([scenario, scenario], { rehearsals: 8 }));
    expect(over.multiples[1]!.density).toEqual(plans[0]!.measures.dryDensity);
    expect(over.multiples[1]!.idle).toBe(plans[0]!.measures.packingIdle!.mean);
    over.multiples.slice(1).forEach(({ density, idle }, i) => {
      expect(density!.mean).toBeGreaterThanOrEqual(over.multiples[i]!.density!.mean - 1e-9);
      expect(idle!).toBeGreaterThanOrEqual(over.multiples[i]!.idle! - 1e-9);
    });
    expect(over.inWords).toMatch(over.enough === null ? /Up to 6 packing tractors/u : new RegExp(`From ${over.enough} packing tractors? beside the blade on`, "u"));
  });

  it("leaves the last packing tractors at home, keeps the blade, and hires further ones like the crew's mean", () => {
    const names = (count: number) => withPackers(smallDay({ storages: [bunker({ tractors: [roller(20_000, { name: "First" }), blade(10_000), roller(15_000, { name: "Second" })] })] }), 0, count).storages[0]!.tractors.map(({ name, mass }) => [name, mass]);
    expect(names(0)).toEqual([["Blade", 10_000]]);
    expect(names(1)).toEqual([["First", 20_000], ["Blade", 10_000]]);
    expect(names(4)).toEqual([["First", 20_000], ["Blade", 10_000], ["Second", 15_000], ["Hired tractor", 15_000], ["Hired tractor 2", 15_000]]);
    expect(() => names(-1)).toThrow(/whole number/u);
  });

  it("refuses a range that is none or is too long", () => {
    expect(() => many({ from: 5, to: 3 })).toThrow(/no range/u);
    expect(() => many({ from: 1.5 })).toThrow(/no range/u);
    expect(() => many({ from: 1, to: MOST_MULTIPLES + 1 })).toThrow(/too many/u);
    expect(() => many({ kind: 7 })).toThrow(/no kind/u);
    expect(() => many({ rehearsals: 0 })).toThrow(/whole number/u);
  });
});
