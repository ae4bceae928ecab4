import { describe, expect, it } from "vitest";
import { bottleneckOf } from "../../sim/findings/verdict.ts";
import { rehearseDays } from "../../sim/study/rehearsal.ts";
import type { Effect } from "../../sim/study/effects.ts";
import { whyNothing } from "../../sim/study/why.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { bunker, chopper, blade, roller, trucks } from "../harvest/plan.ts";
import { smallDay } from "./small.ts";

const rehearsed = (scenario: Scenario) => ({ scenario, days: rehearseDays(scenario, { seed: 1 }, 0, 3).facts });
const STILL: Effect = { figure: "chopperWaiting", unit: "1", correlation: null, luckGain: null, mean: 0, low: 0, high: 0, sd: 0, sure: false, moves: false, better: null };

describe("Why a remedy does nothing", () => {
  it("names another limit than packing to whoever would roll more, and never packing itself", () => {
    const loose = rehearsed(smallDay());
    expect(bottleneckOf(loose.scenario, loose.days)).toBe("packing");
    expect(whyNothing({ family: "rolling", storage: 0 }, loose, loose, STILL)).toBe("Packing is what limits the day, but so little more rolling moves nothing noticeably.");
    const strong = rehearsed(smallDay({ choppers: [chopper({ throughput: 15 })], trucks: [trucks(6)], storages: [bunker({ tractors: [blade(20_000), roller(22_000), roller(22_000, { name: "Third" })] })] }));
    expect(whyNothing({ family: "rolling", storage: 0 }, strong, strong, STILL)).toBe("Packing is not what limits the day: cutting is.");
  });

  it("says of a chopper that never waits for trucks that it never does, instead of a share of nothing", () => {
    const loose = rehearsed(smallDay({ trucks: [trucks(6)] }));
    expect(whyNothing({ family: "truck-more", storage: null }, loose, rehearsed(smallDay({ trucks: [trucks(7)] })), STILL))
      .toMatch(/^The chopper never waits for trucks\. One more only stands in line for the chopper: a round takes \d+ min instead of \d+ min\.$/u);
  });
});
