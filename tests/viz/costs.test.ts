import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { cheapestOf, costParts, unpriced } from "../../viz/beside/costs.ts";
import { bunker, plan } from "../harvest/plan.ts";

const day = (capitalCost: number): Scenario => plan({ storages: [bunker({ capitalCost })] });
const [bare, paved, dear] = [day(0), day(100_000), day(300_000)];
const said = [bare, paved, dear].map((scenario) => rehearse(scenario, { rehearsals: 1 }).findings);
const whole = said.map(({ measures }) => measures.costPerTonneFed!.mean);

describe("what a tonne fed costs in plans side by side", () => {
  it("falls into parts that add up to it, plan by plan", () => {
    const parts = costParts(said);
    said.forEach((_, i) => expect(parts.reduce((sum, { amounts }) => sum + (amounts[i] ?? 0), 0)).toBeCloseTo(whole[i]!, 9));
    expect(parts[0]!.what).toBeNull();
  });

  it("has a part for concrete that a plan without any lacks, and that grows with its price; the harvest costs the same in all", () => {
    const [harvest, ...storing] = costParts(said);
    const concrete = storing.find(({ amounts }) => amounts[0] === null)!;
    expect(concrete.amounts[2]! / concrete.amounts[1]!).toBeCloseTo(3, 9);
    expect(concrete.note).not.toBe("");
    expect(harvest!.amounts[1]).toBeCloseTo(harvest!.amounts[0]!, 9);
  });

  it("is least in one of them, wherever that stands, and in none where they reckon in different money", () => {
    expect(cheapestOf(said)).toBe(0);
    expect(cheapestOf([...said].reverse())).toBe(2);
    expect(cheapestOf([said[0]!, { ...said[1]!, money: { ...said[1]!.money, currency: "SHELLS" } }])).toBeNull();
  });

  it("misses the price of a storage only where storages are compared", () => {
    expect(unpriced([bare, paved])).toEqual([0]);
    expect(unpriced([bare, bare])).toEqual([]);
    expect(unpriced([paved, dear])).toEqual([]);
  });
});
