import { describe, expect, it } from "vitest";
import { factsOf } from "../../sim/findings/facts.ts";
import { rehearseDay } from "../../sim/harvest/day.ts";
import { Roster } from "../../sim/study/roster.ts";
import { carryOut, type Batch, type Step, type Study } from "../../sim/study/work.ts";
import { bunker, roller } from "../harvest/plan.ts";
import { smallDay, smallWithTrucks } from "./small.ts";

/** Brings the plans to so many days, and tells which batches were asked for. */
function bring(roster: Roster, days: number, plans: readonly number[]): Batch[] {
  const asked: Batch[] = [];
  const watched = function* (): Study<void> {
    const steps = roster.bringTo(days, plans, 0);
    let next = steps.next();
    while (!next.done) {
      const step: Step<never> = next.value as Step<never>;
      asked.push(...step.batches);
      next = steps.next(yield step);
    }
  };
  carryOut(watched());
  return asked;
}

describe("The roster of a study", () => {
  it("knows equal plans as one, and rehearses each day of a plan once, also when it is named twice", () => {
    const roster = new Roster(3);
    const [a, b, again] = [roster.add(smallDay()), roster.add(smallWithTrucks(4)), roster.add(smallDay())];
    expect(again).toBe(a);
    bring(roster, 3, [a, b, again]);
    expect(roster.daysOf(a)).toHaveLength(3);
    const more = bring(roster, 5, [a]);
    expect(more.map(({ plan, from, to }) => [plan, from, to])).toEqual([[a, 3, 5]]);
    expect(roster.daysOf(a)).toEqual([0, 1, 2, 3, 4].map((rehearsal) => factsOf(smallDay(), rehearseDay(smallDay(), { seed: 3, rehearsal }))));
    expect(roster.daysOf(b)).toHaveLength(3);
    expect(bring(roster, 5, [a])).toEqual([]);
  });

  it("remembers why a plan has no end, and does not try it again", () => {
    const roster = new Roster(1);
    const hopeless = roster.add(smallDay({ packing: { whenBehind: "hold" }, targets: { dryDensity: 420 }, storages: [bunker({ tractors: [roller(3000, { spreads: 20, rolling: 0.01 })] })] }));
    bring(roster, 1, [hopeless]);
    expect(roster.whyEndless(hopeless)).toContain("does not end");
    expect(bring(roster, 2, [hopeless])).toEqual([]);
  });
});
