/**
 * Packing debt: how far the packing is behind, in minutes of the full crew's work, whatever rule the crew works by.
 *
 * A load owes t*, the steady cycle that `hold` needs for it with the full crew. Each working second of the full crew pays one second,
 * a smaller crew pays in proportion to its rate, and rolling beyond what is owed earns no credit: a reflected queue (Lindley 1952,
 * The theory of queues with a single server, Mathematical Proceedings of the Cambridge Philosophical Society 48(2); recursion from memory).
 */
import type { Day } from "../harvest/daylog.ts";
import { cycleAtTarget, cyclesAtTarget, usualLoad } from "../harvest/pace.ts";
import type { Scenario } from "../scenario/types.ts";
import { pausedBetween } from "./pauses.ts";

/** Debt as a line through points: s after midnight, s owed. A tip is two points at one instant. */
export interface DebtPoint { readonly time: number; readonly debt: number }

/** Working time that the debt must stay above one usual load's t* before packing is called behind, s (assumption of this project). */
export const BEHIND_FOR = 30 * 60;

/** The debt at one storage over the day, from its start until it is paid or the day is over; what lies on the apron then is owed for at once. */
export function packingDebt(day: Day, scenario: Scenario, storage: number): DebtPoint[] {
  const depth = day.plannedDepth[storage]!;
  const owedFor = cyclesAtTarget(scenario, scenario.storages[storage]!, depth);
  const marks: { time: number; owes?: number; pays?: number; resting?: boolean }[] = [];
  for (const trip of day.trips) {
    if (trip.storage === storage && !Number.isNaN(trip.tipped)) marks.push({ time: trip.tipped, owes: owedFor(trip) });
  }
  for (const load of day.start?.storages[storage]?.apron ?? []) marks.push({ time: day.from, owes: owedFor(load) });
  for (const change of day.crew) if (change.storage === storage) marks.push({ time: change.at, pays: change.pays });
  for (const pause of scenario.shift.breaks) {
    if (pause.at + pause.for <= day.from) continue;
    marks.push({ time: Math.max(day.from, pause.at), resting: true }, { time: pause.at + pause.for, resting: false });
  }
  marks.push({ time: day.until });
  marks.sort((a, b) => a.time - b.time);

  const points: DebtPoint[] = [{ time: day.from, debt: 0 }];
  let now = day.from;
  let debt = 0;
  let pays = 1;
  let resting = false;
  for (const mark of marks) {
    if (mark.time > day.until) break;
    const rate = resting ? 0 : pays;
    if (debt > 0 && rate * (mark.time - now) >= debt) points.push({ time: now + debt / rate, debt: 0 });
    debt = Math.max(0, debt - rate * (mark.time - now));
    now = mark.time;
    points.push({ time: now, debt });
    if (mark.owes !== undefined) points.push({ time: now, debt: (debt += mark.owes) });
    pays = mark.pays ?? pays;
    resting = mark.resting ?? resting;
  }
  return points;
}

/** What the debt says of a day at one storage. */
export interface DebtStory {
  /** s after midnight from which packing is behind; null when it never is */ readonly behindFrom: number | null;
  /** s */ readonly peak: number;
  /** working s from shift start to the end of the line without debt, and in all */ readonly idle: number;
  readonly onSite: number;
}

/** Reads the line: the first moment from which it stays above one usual load's t* for `BEHIND_FOR` of working time. */
export function readDebt(points: readonly DebtPoint[], scenario: Scenario, storage: number, depth: number, until: number): DebtStory {
  // Steady work that exactly keeps up touches the threshold at every tip; rounding must not lift it above.
  const threshold = cycleAtTarget(scenario, scenario.storages[storage]!, usualLoad(scenario, storage), depth) * (1 + 1e-6);
  const worked = (from: number, to: number) => Math.max(0, to - from - pausedBetween(scenario.shift.breaks, from, to));
  let behindFrom: number | null = null;
  let above: number | null = null;
  let peak = 0;
  let idle = 0;
  let onSite = 0;
  for (let i = 1; i < points.length; i++) {
    const a = points[i - 1]!;
    const b = points[i]!;
    peak = Math.max(peak, b.debt);
    const seconds = worked(a.time, Math.min(b.time, until));
    onSite += seconds;
    if (a.debt === 0 && b.debt === 0) idle += seconds;
    if (above === null && b.debt > threshold) above = b.time;
    else if (above !== null && b.debt <= threshold) {
      // Down the slope of this stretch to where it meets the threshold.
      const met = a.debt > b.debt ? a.time + ((a.debt - threshold) / (a.debt - b.debt)) * (b.time - a.time) : b.time;
      if (worked(above, met) >= BEHIND_FOR) behindFrom ??= above;
      above = null;
    }
  }
  if (above !== null && worked(above, points.at(-1)!.time) >= BEHIND_FOR) behindFrom ??= above;
  return { behindFrom, peak, idle, onSite };
}
