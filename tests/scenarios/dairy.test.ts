/** A dairy chooses a layout: the same crop and crew into a bunker and into a pile. */
import { describe, expect, it } from "vitest";
import { capacityOf } from "../../sim/forage/geometry/index.ts";
import { rehearse } from "../../sim/study/rehearsal.ts";
import { example } from "./example.ts";

const DAYS = 30;

describe.each([
  ["900 cows, US units", "dairy-bunker-900-cows", "dairy-pile-900-cows"],
  ["twenty hectares, metric", "bunker-12x45", "pile-for-12x45"],
])("Bunker or pile: %s", (_, bunkerName, pileName) => {
  const [bunker, pile] = [example(bunkerName), example(pileName)];

  it("differ in the storage alone", () => {
    expect({ ...pile, name: bunker.name, storages: [] }).toEqual({ ...bunker, storages: [] });
    expect(pile.storages[0]!.tractors).toEqual(bunker.storages[0]!.tractors);
  });

  it("both hold the crop at target density, with room for a good year", () => {
    for (const { fields, storages, targets } of [bunker, pile]) {
      const volume = fields.reduce((sum, field) => sum + field.area * field.yield * field.dryMatter, 0) / targets.dryDensity;
      expect(volume).toBeLessThan(0.9 * capacityOf(storages[0]!));
      expect(volume).toBeGreaterThan(0.6 * capacityOf(storages[0]!));
    }
  });

  it.each([1, 2, 3])("the pile has more to cover and loses more under the cover, lies shallower, and its ledger adds up (seed %i)", (seed) => {
    const [a, b] = [bunker, pile].map((scenario) => rehearse(scenario, { rehearsals: DAYS, seed }).findings) as [ReturnType<typeof rehearse>["findings"], ReturnType<typeof rehearse>["findings"]];
    const [inBunker, inPile] = [a.storages[0]!, b.storages[0]!];
    expect(inPile.coverArea).toBeGreaterThan(1.2 * inBunker.coverArea);
    expect(inPile.meanDepth).toBeLessThan(inBunker.meanDepth);
    const top = (findings: typeof a) => findings.losses.find(({ cause }) => cause === "topLayer")!.share!;
    expect(top(b)).toBeGreaterThan(top(a));
    for (const { ledger, losses, measures, storages } of [a, b]) {
      const lost = losses.reduce((sum, { dryT, on }) => sum + (on && dryT ? dryT.central : 0), 0);
      expect(ledger.fedT.central).toBeCloseTo(ledger.storedT - lost, 6);
      expect(measures.costPerTonneFed!.mean).toBeGreaterThan(measures.costPerTonne!.mean);
      expect(storages[0]!.feedOut!.advance).toBeGreaterThan(storages[0]!.feedOut!.minimum);
    }
  });
});
