/** The rest of a day that was taken up in the middle: what still finishes and when. Pure; what is found by rehearsing again comes from the study. */
import type { Day } from "../harvest/daylog.ts";
import { awayUntil, type DayStart } from "../harvest/start.ts";
import type { Scenario } from "../scenario/types.ts";
import { clockOf } from "./clock.ts";
import { meanOver } from "./figure.ts";
import { stopRules } from "./stoprules.ts";
import { quantile } from "./summary.ts";
import type { RestOfDay } from "./types.ts";

/** One day's rest. */
export interface RestFacts {
  /** s after midnight: everything closed */ readonly closed: number;
  /** fresh kg standing at the start and at the end, by field */ readonly standing: readonly number[];
  readonly left: readonly number[];
  /** s after midnight, by field; null while it is not bare */ readonly doneAt: readonly (number | null)[];
  /** s after midnight: last tip by machine; null for one that tips nothing */ readonly lastTip: readonly (number | null)[];
}

/** Reads one day. */
export function restFacts(day: Day): RestFacts {
  const cut = day.uncut.map(() => 0);
  const lastTip: (number | null)[] = day.machines.map(() => null);
  for (const trip of day.trips) {
    if (trip.filled > day.from) cut[trip.field]! += trip.mass;
    if (!Number.isNaN(trip.tipped)) lastTip[trip.truck] = Math.max(lastTip[trip.truck] ?? 0, trip.tipped);
  }
  const standing = day.uncut.map((left, f) => left + cut[f]!);
  return {
    closed: Math.max(day.from, ...day.lifts.map((lift) => lift.closed)), standing, left: day.uncut, lastTip,
    doneAt: standing.map((kg, f) => (kg === 0 ? day.from : day.events.find((event) => event.kind === "field-done" && event.field === f)?.at ?? null)),
  };
}

/** What was assumed where the state is silent, in words. */
const ASSUMED = [
  "Trucks stand empty at the chopper, loads on the road are spread evenly along it (assumption of this project).",
  "What lies packed has the density that was told, or else the one this crew gives it in the time it has worked (assumption of this project).",
  "A field that was begun is cut on from a row's end, by the first chopper of the plan that may cut it and has none yet; a machine that is down is at its place in the moment it is back (assumption of this project).",
  "What was delivered and paid before is not in these figures; density, depth, losses and cover are of the whole clamp.",
];

/** Sums the rests of so many days up. */
export function restOf(scenario: Scenario, start: DayStart, days: readonly RestFacts[], found: Pick<RestOfDay, "stopCutting" | "trucks">): RestOfDay {
  const closed = days.map((day) => day.closed);
  const at = start.at ?? scenario.shift.start;
  return {
    from: clockOf(at),
    closedAt: { early: clockOf(quantile(closed, 0.1)), median: clockOf(quantile(closed, 0.5)), late: clockOf(quantile(closed, 0.9)) },
    fields: scenario.fields.map(({ name }, f) => {
      const done = days.map((day) => day.doneAt[f]!).filter((time) => time !== null);
      return {
        name, standingT: meanOver(days, (day) => day.standing[f]!) / 1000, leftT: meanOver(days, (day) => day.left[f]!) / 1000,
        doneOn: done.length / days.length, doneAt: done.length > 0 ? clockOf(quantile(done, 0.5)) : null,
      };
    }),
    stopRules: stopRules(scenario, (s, i) => awayUntil(start, "roller", scenario.storages[s]!.tractors[i]!.name) <= at),
    ...found,
    assumptions: ASSUMED,
  };
}
