import { describe, expect, it } from "vitest";
import { daysOf } from "../../server/studies/kinds.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { fixes } from "../../sim/study/fixes.ts";
import { carryOut } from "../../sim/study/work.ts";
import { blade, bunker, field, plan, roller, trucks } from "../harvest/plan.ts";
import { example } from "../scenarios/example.ts";

describe("the days that a study of fixes is said to take before", () => {
  const taken = (scenario: Scenario): number => {
    let days = 0;
    carryOut(fixes(scenario, { rehearsals: 1 }), { onProgress: ({ done }) => { days = done; } });
    return days;
  };
  const said = (scenario: Scenario, rehearsals: number) => daysOf({ kind: "fixes", scenarios: [scenario], options: { rehearsals } })[0]!;
  /** Eight kinds of truck and ten tractors, each of which can be one more and one fewer. */
  const large = plan({
    name: "Large crew", fields: [field({ area: 30_000 })], trucks: Array.from({ length: 8 }, (_, i) => trucks(2, { kind: `Kind ${i + 1}` })),
    storages: [bunker({ tractors: [blade(), ...Array.from({ length: 10 }, (_, i) => roller(10_000 + 500 * i, { name: `Roller ${i + 1}`, hireable: true }))] })],
  });

  it("are no fewer than it takes, and only pairs that nobody knows yet and plans that turn out equal more, however large the crew", () => {
    for (const scenario of [example("contractor-corn-day"), example("grass-long-road"), large]) {
      const days = taken(scenario);
      expect(said(scenario, 1), scenario.name).toBeGreaterThanOrEqual(days);
      expect(said(scenario, 1) - days, scenario.name).toBeLessThanOrEqual(25);
      expect(said(scenario, 30), scenario.name).toBe(30 * said(scenario, 1));
    }
  });
});
