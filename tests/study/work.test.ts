import { describe, expect, it } from "vitest";
import { compare } from "../../sim/study/compare.ts";
import { carryOut, carryOutOn, rehearseBatch, Stopped, type Batch } from "../../sim/study/work.ts";
import { contraryHands } from "./hands.ts";
import { smallDay, smallWithRoller } from "./small.ts";

const study = () => compare([smallDay(), smallWithRoller()], { rehearsals: 45 });
const text = (result: unknown) => JSON.stringify(result);

describe("A study", () => {
  it("comes out as the same bytes on other hands, however many days they take at once and whoever is done first", async () => {
    const here = text(carryOut(study()));
    for (const most of [1, 7, 1000]) {
      const { hands, asked } = contraryHands(most);
      expect(text(await carryOutOn(hands, study())), `${most} at once`).toBe(here);
      expect(Math.max(...asked.map(({ from, to }) => to - from))).toBeLessThanOrEqual(most);
    }
  });

  it("stops before the next day when it is told to, here and on other hands, and leaves nothing half done behind", async () => {
    let days = 0;
    expect(() => carryOut(study(), { shouldStop: () => days++ === 7 })).toThrow(Stopped);
    expect(days).toBe(8);
    let pieces = 0;
    const hands = { most: 5, rehearse: async (batch: Batch) => (pieces++, rehearseBatch(batch)) };
    await expect(carryOutOn(hands, study(), { shouldStop: () => pieces > 0 })).rejects.toThrow(Stopped);
  });

  it("tells how far it is: the days done never fall, and end at what was expected", () => {
    const told: number[] = [];
    let expected = 0;
    carryOut(study(), { onProgress: (progress) => { told.push(progress.done); expected = progress.expected; } });
    expect([...told].sort((a, b) => a - b)).toEqual(told);
    expect(told.at(-1)).toBe(expected);
    expect(expected).toBe(90);
  });
});
