import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { momentAt, type TruckMoment } from "../../sim/harvest/moment.ts";
import type { Scenario } from "../../sim/scenario/types.ts";
import { levelsAt, onLine, spellsOf, truckLine, waitedIn } from "../../viz/trucklines.ts";
import { HOUR, plan, trucks } from "../harvest/plan.ts";
import { runs } from "../scenario/generated.ts";
import { anyDay, anyShare, rehearsal, timeAt, type Rehearsal } from "./anyday.ts";

/** m from one level to the next */
const STEP = 400;

const linesOf = ({ replay, scenario }: Rehearsal) => replay.trucks.map((_, i) => truckLine(replay, scenario, i, STEP));

/** Where the replay says that a truck is, on the axis of the lines. */
function placeOf({ step, progress, trip }: TruckMoment, { day }: Rehearsal, scenario: Scenario): number | null {
  if (trip < 0) return null;
  const { distance } = scenario.fields[day.trips[trip]!.field]!;
  const level = levelsAt(scenario, distance, STEP);
  const lane = scenario.lane ? level.storage - Math.min(distance, scenario.lane.length) : level.storage;
  switch (step) {
    case "in-line": return level.wait;
    case "changeover": case "filling": return level.fill;
    case "loaded-road": return level.gate + (lane - level.gate) * progress;
    case "lane-line": return lane;
    case "lane": return lane + (level.storage - lane) * progress;
    case "scale-line": case "weighing": return level.scale;
    case "place-line": return level.queue;
    case "room-wait": case "tipping": return level.tip;
    default: return null;
  }
}

describe("the lines of the trucks", () => {
  it("stand where the replay says that the truck is, loaded or waiting, at any time of any day", () => {
    fc.assert(fc.property(anyDay, anyShare, (day, share) => {
      const time = timeAt(day, share);
      const lines = linesOf(day);
      momentAt(day.replay, time).trucks.forEach((truck, i) => {
        const place = placeOf(truck, day, day.scenario);
        // At a joint two stretches meet, and the later one counts in both; a step without length is in neither.
        const on = place === null ? null : onLine(lines[i]!, time);
        if (on) expect(Math.abs(on.y - place!), `${truck.step} ${truck.progress}`).toBeLessThan(1);
      });
    }), { numRuns: runs(60, 500) });
  });

  it("run forward, flat wherever the truck waits or works, and never faster than the truck drives", () => {
    fc.assert(fc.property(anyDay, (day) => {
      const varies = Object.values(day.scenario.variation).some((luck) => luck !== null);
      const fastest = Math.max(...day.scenario.trucks.flatMap(({ loadedSpeed, emptySpeed }) => [loadedSpeed, emptySpeed]));
      for (const line of linesOf(day)) {
        line.forEach(({ from, until, y0, y1, does }, i) => {
          expect(until).toBeGreaterThan(from);
          if (i > 0) expect(from).toBeGreaterThanOrEqual(line[i - 1]!.until - 1e-6);
          if (does !== "drive") expect(y1).toBe(y0);
          else if (!varies && day.scenario.fields.length === 1) expect(Math.abs(y1 - y0) / (until - from)).toBeLessThan(fastest * (1 + 1e-6));
        });
      }
    }), { numRuns: runs(40, 500) });
  });

  it("have a thick stretch for every second that the trips say the truck waited for the spout, the lane, the scale and the tip", () => {
    const day = rehearsal(plan({ trucks: [trucks(6)], packing: { whenBehind: "hold" } }));
    const drawn = linesOf(day).flat().reduce((sum, { from, until, does }) => sum + (does === "wait" ? until - from : 0), 0);
    const counted = day.day.trips.reduce((sum, trip) => sum + waitedIn(trip, []), 0);
    expect(counted).toBeGreaterThan(HOUR);
    expect(drawn).toBeCloseTo(counted, 3);
  });
});

describe("the spells of a machine in one state", () => {
  it("last as long in all as its state totals say, breaks left out", () => {
    fc.assert(fc.property(anyDay, ({ day, replay }) => {
      day.machines.forEach(({ kind, seconds }, machine) => {
        if (kind !== "chopper") return;
        const sum = spellsOf(replay, machine, "waiting").reduce((all, { from, until }) => all + until - from, 0);
        expect(sum).toBeCloseTo(seconds.waiting ?? 0, 3);
      });
    }), { numRuns: runs(40, 500) });
  });
});
