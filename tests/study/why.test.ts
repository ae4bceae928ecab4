import { describe, expect, it } from "vitest";
import { bottleneckOf } from "../../sim/findings/verdict.ts";
import { rehearseDays } from "../../sim/study/rehearsal.ts";
import type { Effect } from "../../sim/study/effects.ts";
import { withSecondClamp } from "../../sim/study/change.ts";
import { whyNothing } from "../../sim/study/why.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { bunker, chopper, blade, field, roller, trucks } from "../harvest/plan.ts";
import { smallDay } from "./small.ts";

const rehearsed = (scenario: Scenario) => ({ scenario, days: rehearseDays(scenario, { seed: 1 }, 0, 3).facts });
const STILL: Effect = { figure: "chopperWaiting", unit: "1", correlation: null, luckGain: null, mean: 0, low: 0, high: 0, sd: 0, sure: false, moves: false, better: null };

describe("Why a remedy does nothing", () => {
  it("says of trucks that wait nowhere that none does, instead of a wait of no minutes", () => {
    const alone = rehearsed(smallDay({ trucks: [trucks(1)], weighing: null }));
    expect(whyNothing({ family: "tipping-place", storage: 0 }, alone, alone, STILL)).toBe("No truck waits: there is no queue to shorten.");
    const without = (waiting: number) => ({ ...alone, days: alone.days.map((day) => ({ ...day, measures: { ...day.measures, chopperWaiting: waiting, chopperWaitingOnStorage: 0 } })) });
    expect(whyNothing({ family: "truck-fewer", storage: null }, alone, without(0.001), STILL)).toBe("The trucks that are left bring as much: the chopper never waits for them.");
    expect(whyNothing({ family: "truck-fewer", storage: null }, alone, without(0.03), STILL)).toBe("The trucks that are left bring as much: the chopper waits for them 3 % of its time.");
  });

  it("says of a chopper that is eased that it is slowed already, not that it stands", () => {
    const eased = rehearsed(smallDay({ packing: { whenBehind: "ease" } }));
    expect(whyNothing({ family: "slower-chopper", storage: null }, eased, eased, STILL)).toBe("The chopper is slowed further than that already, to what the crew packs.");
  });

  it("calls a bigger apron one that fills as well only where it does", () => {
    const full = rehearsed(smallDay({ storages: [bunker({ apron: 16_000 })], packing: { whenBehind: "hold" } }));
    const apron = (after: ReturnType<typeof rehearsed>) => whyNothing({ family: "apron", storage: 0 }, full, after, STILL);
    expect(apron(rehearsed(smallDay({ storages: [bunker({ apron: 32_000 })], packing: { whenBehind: "hold" } })))).toMatch(/^The bigger apron fills as well, only later/u);
    expect(apron(rehearsed(smallDay({ storages: [bunker({ apron: 300_000 })], packing: { whenBehind: "hold" } })))).toMatch(/^The apron is full at times, and hardly anybody waits for room on it/u);
  });

  it("says of a second place to which nothing goes that there is but one field", () => {
    const one = smallDay();
    expect(whyNothing({ family: "second-clamp", storage: 0 }, rehearsed(one), rehearsed(withSecondClamp(one)), STILL)).toMatch(/^Nothing goes to the second place: all the crop is of one field/u);
    const two = smallDay({ fields: [field({ area: 30_000 }), field({ name: "Far Side", area: 30_000 })] });
    expect(whyNothing({ family: "second-clamp", storage: 0 }, rehearsed(two), rehearsed(withSecondClamp(two)), STILL)).toMatch(/^The first is never full/u);
  });

  it("says where the wedge has no room for one more tractor", () => {
    const narrow = (rollers: number) => rehearsed(smallDay({
      storages: [bunker({ width: 9, tractors: [blade(), ...Array.from({ length: rollers }, (_, i) => roller(16_000, { name: `Roller ${i + 1}` }))] })], packing: { wedgeRoom: "by-width" },
    }));
    expect(whyNothing({ family: "tractor-more", storage: 0 }, narrow(3), narrow(4), STILL)).toBe("The wedge has room for 2 at a time: one more takes turns with the others.");
  });

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
