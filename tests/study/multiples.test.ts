import { describe, expect, it } from "vitest";
import { compare } from "../../sim/study/compare.ts";
import { multiples, MOST_MULTIPLES, type MultiplesOptions } from "../../sim/study/multiples.ts";
import { carryOut } from "../../sim/study/work.ts";
import { handBounds } from "../../sim/findings/hand.ts";
import { blade, bunker, field, roller, trucks } from "../harvest/plan.ts";
import { smallDay, smallWithTrucks } from "./small.ts";

const many = (options: MultiplesOptions, scenario = smallDay({ storages: [bunker({ tractors: [blade(20_000), roller(22_000), roller(22_000, { name: "Third" })] })], fields: [field({ area: 60_000, distance: 4000 })] })) =>
  carryOut(multiples(scenario, { rehearsals: 12, ...options }));
const result = many({ from: 1, to: 8 });

describe("The same small summary for many numbers of trucks", () => {
  it("comes for each number in turn, each what a comparison says of it", () => {
    expect(result.multiples.map(({ trucks: count }) => count)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
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

  it("takes a few around what there is when nobody says how many, and the kind of which there are most", () => {
    const mixed = smallDay({ trucks: [trucks(1, { kind: "Big" }), trucks(4)] });
    const { kind, now, multiples: shown } = many({}, mixed);
    expect({ kind, now, from: shown[0]!.trucks, to: shown.at(-1)!.trucks }).toEqual({ kind: "Tipper", now: 4, from: 2, to: 7 });
  });

  it("refuses a range that is none or is too long", () => {
    expect(() => many({ from: 5, to: 3 })).toThrow(/no range/u);
    expect(() => many({ from: 1.5 })).toThrow(/no range/u);
    expect(() => many({ from: 1, to: MOST_MULTIPLES + 1 })).toThrow(/too many/u);
    expect(() => many({ kind: 7 })).toThrow(/no kind/u);
    expect(() => many({ rehearsals: 0 })).toThrow(/whole number/u);
  });
});
