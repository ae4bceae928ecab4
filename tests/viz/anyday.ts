/** Days of all kinds, rehearsed for real, with their list of state changes: what the replay has to cope with. */
import fc from "fast-check";
import { rehearseDay } from "../../sim/harvest/day.ts";
import type { Day } from "../../sim/harvest/daylog.ts";
import { replayOf, type Replay } from "../../sim/harvest/replay.ts";
import { BEHIND_RULES, type Scenario } from "../../sim/scenario/types.ts";
import { HOUR, bunker, chopper, field, plan, trucks, varying } from "../harvest/plan.ts";

export interface Rehearsal { readonly scenario: Scenario; readonly day: Day; readonly replay: Replay }

/** One day of a scenario, ready to be replayed. */
export function rehearsal(scenario: Scenario): Rehearsal {
  const day = rehearseDay(scenario, { states: true });
  return { scenario, day, replay: replayOf(day, scenario.shift.breaks) };
}

const breakdowns = fc.option(fc.record({ between: fc.integer({ min: HOUR, max: 6 * HOUR }), repair: fc.integer({ min: 300, max: HOUR }) }), { freq: 3 });

/** Rules, fleets, breaks, luck, breakdowns, a single lane, a second chopper, a second storage: in any mixture. */
export const anyDay: fc.Arbitrary<Rehearsal> = fc.record({
  rule: fc.constantFrom(...BEHIND_RULES),
  count: fc.integer({ min: 1, max: 9 }),
  choppers: fc.integer({ min: 1, max: 2 }),
  storages: fc.integer({ min: 1, max: 2 }),
  apron: fc.integer({ min: 16_000, max: 80_000 }),
  tippingPlaces: fc.integer({ min: 1, max: 2 }),
  lucky: fc.boolean(),
  pause: fc.boolean(),
  lane: fc.boolean(),
  scale: fc.boolean(),
  truckTrouble: breakdowns,
  chopperTrouble: breakdowns,
  seed: fc.integer({ min: 1, max: 1000 }),
}).map((wish) => told(wish, rehearsal(plan({
  fields: Array.from({ length: wish.choppers }, (_, i) => field({ name: `Field ${i + 1}`, area: 60_000, distance: 1500 + 2500 * i, storages: [i % wish.storages] })),
  choppers: Array.from({ length: wish.choppers }, (_, i) => chopper({ name: `Chopper ${i + 1}`, breakdowns: wish.chopperTrouble })),
  trucks: [trucks(wish.count, { breakdowns: wish.truckTrouble })],
  storages: Array.from({ length: wish.storages }, (_, i) => bunker({ name: `Bunker ${i + 1}`, apron: wish.apron, tippingPlaces: wish.tippingPlaces })),
  lane: wish.lane ? { length: 600, speed: 5, meeting: 10 } : null,
  weighing: wish.scale ? { time: 60, lanes: 1 } : null,
  packing: { whenBehind: wish.rule },
  shift: { breaks: wish.pause ? [{ at: 9 * HOUR, for: 1800 }] : [] },
  variation: varying(wish.lucky ? { cutting: 0.1, load: 0.04, loaded: 0.15, empty: 0.15, weighing: 0.3, tip: 0.4, spread: 0.2 } : {}),
  seed: wish.seed,
}))));

/** A day that a failing property prints as the wish it was made from, not as the thousands of lines it is. */
function told(wish: object, day: Rehearsal): Rehearsal {
  return Object.defineProperty(day, fc.toStringMethod, { value: () => JSON.stringify(wish) });
}

/** A time of the day as a share of it, ends included. */
export const anyShare = fc.double({ min: 0, max: 1, noNaN: true });

export const timeAt = ({ day }: Rehearsal, share: number): number => day.from + share * (day.until - day.from);
