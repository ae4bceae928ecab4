import { describe, expect, it } from "vitest";
import { rehearse } from "../../sim/study/rehearsal.ts";
import type { Findings } from "../../sim/findings/types.ts";
import { compare } from "../../sim/study/compare.ts";
import { carryOut } from "../../sim/study/work.ts";
import { SIDE_MEASURES, sideBySide, toldApart, type Paired } from "../../viz/beside/side.ts";
import { plan, trucks } from "../harvest/plan.ts";
import { smallWithTrucks } from "../study/small.ts";

const answer: Findings = rehearse(plan({}), { rehearsals: 1 }).findings;
const row = (now: Findings, other: Findings, measure: (typeof SIDE_MEASURES)[number]) => sideBySide(now, other).find((each) => each.measure === measure)!;
/** The answer with another density, the band as wide as it was. */
const denser = (by: number): Findings => ({
  ...answer,
  measures: { ...answer.measures, dryDensity: { ...answer.measures.dryDensity!, mean: answer.measures.dryDensity!.mean + by } },
  storages: answer.storages.map((storage) => ({ ...storage, dryDensity: { ...storage.dryDensity, band: [storage.dryDensity.band[0] + by, storage.dryDensity.band[1] + by] as const } })),
});

describe("side by side", () => {
  it("finds no difference between a plan and itself", () => {
    for (const { difference, within } of sideBySide(answer, answer)) {
      expect(difference).toBe(0);
      expect(within).toBeNull();
    }
  });

  it("turns its sign when the two change places, and says the same of what it is worth", () => {
    const other = rehearse(plan({ trucks: [trucks(2)] }), { rehearsals: 1 }).findings;
    const back = sideBySide(other, answer);
    sideBySide(answer, other).forEach(({ difference, within }, i) => {
      expect(difference).toBeCloseTo(-back[i]!.difference!, 12);
      expect(within).toBe(back[i]!.within);
    });
    expect(row(answer, other, "fillTime").difference).toBeLessThan(0);
  });

  it("calls a difference in density smaller than half the band inside the scatter, and a larger one not", () => {
    const [low, high] = answer.storages[0]!.dryDensity.band;
    const half = (high - low) / 2;
    expect(row(answer, denser(0.9 * half), "dryDensity").within).toBe("relation");
    expect(row(answer, denser(1.1 * half), "dryDensity").within).toBeNull();
  });

  it("takes the limits of a difference from pairs of days, and calls one that they leave open the luck of the days", () => {
    const [three, four] = [smallWithTrucks(3), smallWithTrucks(4)];
    const paired = carryOut(compare([three, four, three], { rehearsals: 12 })).differences;
    const answers = [three, four].map((scenario) => rehearse(scenario, { rehearsals: 12 }).findings) as [Findings, Findings];
    for (const { measure, difference, limits, within } of sideBySide(answers[1], answers[0], paired[0]!.figures)) {
      if (measure === "coverArea") {
        expect(limits).toBeNull();
        continue;
      }
      const { mean, low, high, sure, within: open } = paired[0]!.figures[measure]!;
      // What the findings leave open at once is what the comparison, which comes later, leaves open.
      expect(row(answers[1], answers[0], measure).within).toBe(open);
      expect(difference).toBeCloseTo(mean, 9);
      expect(limits).toEqual([low, high]);
      if (within === "luck") expect(sure).toBe(false);
      if (within === null) expect(sure).toBe(true);
    }
    for (const { within, difference, limits } of sideBySide(answers[0], answers[0], paired[1]!.figures)) {
      expect(difference).toBe(0);
      if (limits) expect(limits).toEqual([0, 0]);
      expect([null, "luck"]).toContain(within);
    }
    expect(sideBySide(answers[1], answers[0]).every(({ limits, within }) => limits === null && within !== "luck")).toBe(true);
  });

  it("tells two plans apart only by what neither the luck of the days nor the model leaves open, and says apart what the loss ledger leaves open", () => {
    const rows = sideBySide(denser(5), answer);
    const difference = (better: boolean, within: "relation" | "ledger" | null = null) => ({ better, within }) as Paired[keyof Paired];
    const paired: Paired = { dryDensity: difference(true, "relation"), dryMatterFed: difference(true, "ledger"), fillTime: difference(false), truckWaiting: difference(true) };
    const { better, ledger } = toldApart(rows, paired, ({ measure }) => measure !== "truckWaiting");
    // A wait that rounds to nothing is no gain.
    expect(better).toEqual({ now: [], other: ["fillTime"] });
    expect(ledger).toEqual({ now: ["dryMatterFed"], other: [] });
    expect(toldApart(rows, { ...paired, dryMatterFed: difference(true) }, () => true).better).toEqual({ now: ["dryMatterFed", "truckWaiting"], other: ["fillTime"] });
  });

  it("takes no difference between two kinds of money", () => {
    const abroad: Findings = { ...answer, money: { ...answer.money, currency: "another" } };
    expect(row(answer, abroad, "costPerTonneFed").difference).toBeNull();
    expect(row(answer, abroad, "dryMatterFed").difference).toBe(0);
  });
});
