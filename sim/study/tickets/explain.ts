/** Which input, were it another, would bring the rehearsed days nearest to the recorded one: one at a time, rehearsed anew. */
import { mean, median, sampleStandardDeviation } from "simple-statistics";
import { clockOf } from "../../findings/clock.ts";
import { percent } from "../../findings/figure.ts";
import type { Scenario } from "../../scenario/types.ts";
import { formatNumber } from "../../scenario/units.ts";
import { withPace, withTrucks } from "../change.ts";
import type { Stoppage } from "./judge.ts";
import { JUDGED_NAMES, judgedOf, type JudgedName } from "./judged.ts";
import { measureDay, staysOf, workBefore, workedBetween, type DayOfLoads, type Pause, type Weighing } from "./loads.ts";
import { fullLoads } from "./patch.ts";

/** Which inputs are tried; `stop` is none: it is the recorded day without its stops. */
export const INPUTS = ["pace", "road", "tip", "load", "trucks", "start", "yield", "stop"] as const;
export type Input = (typeof INPUTS)[number];

/** What was tried, and how much it takes away of the difference beyond luck. */
export interface Explained {
  readonly input: Input;
  readonly what: string;
  /** share of the squared distance beyond luck that is gone: 1 all of it, 0 nothing, less than 0 it is further off */ readonly closes: number;
  /** squared distance beyond luck that is left; 0 or less is within luck */ readonly left: number;
}

/** Something to try: another scenario for the rehearsed days, or the recorded day without what happened on it. */
interface Tried { readonly what: string; readonly input: Input; readonly scenario: Scenario | null; readonly recorded: readonly Weighing[] | null }

/** Shares of the scenario's own value that are tried where the tickets do not tell the value. Assumption of this project. */
const SHARES = [0.7, 0.8, 0.9, 1.1, 1.25, 1.4] as const;

/** Everything there is to try. */
export function explanations(scenario: Scenario, recorded: readonly Weighing[], real: DayOfLoads, days: readonly DayOfLoads[], stoppages: readonly Stoppage[]): Tried[] {
  const another = (input: Input, what: string, changed: Scenario): Tried => ({ what, input, scenario: changed, recorded: null });
  const trucks = (change: (kind: Scenario["trucks"][number]) => Partial<Scenario["trucks"][number]>) => ({ ...scenario, trucks: scenario.trucks.map((kind) => ({ ...kind, ...change(kind) })) });
  const tried = SHARES.flatMap((share) => [
    another("pace", `a chopper at ${percent(share)} of the pace in the plan`, withPace(scenario, share)),
    another("road", `trucks at ${percent(share)} of their speeds in the plan`, trucks(({ loadedSpeed, emptySpeed }) => ({ loadedSpeed: loadedSpeed * share, emptySpeed: emptySpeed * share }))),
    another("tip", `a time to tip of ${percent(share)} of that in the plan`, trucks(({ tip }) => ({ tip: tip * share }))),
  ]);
  const oneKind = scenario.trucks.length === 1;
  const load = mean(fullLoads(recorded));
  if (oneKind) tried.push(another("load", `loads of ${formatNumber(load / 1000, 1)} t, as weighed`, trucks(() => ({ load }))));
  const seen = new Set(recorded.flatMap(({ truck }) => (truck === null ? [] : [truck]))).size;
  if (oneKind && seen > 0 && seen !== scenario.trucks[0]!.count) tried.push(another("trucks", `${seen} ${seen === 1 ? "truck" : "trucks"}, as on the tickets`, withTrucks(scenario, seen, 0)));
  const late = real.first - mean(days.map(({ first }) => first));
  const start = Math.min(scenario.shift.end - 3600, Math.max(0, scenario.shift.start + late));
  if (start !== scenario.shift.start) tried.push(another("start", `a start at ${clockOf(start)}`, { ...scenario, shift: { ...scenario.shift, start } }));
  const more = real.tonnes / mean(days.map(({ tonnes }) => tonnes));
  tried.push(another("yield", `a yield of ${percent(more)} of that in the plan`, { ...scenario, fields: scenario.fields.map((field) => ({ ...field, yield: field.yield * more })) }));
  if (stoppages.length > 0) {
    const what = stoppages.length === 1 ? `the stop from ${clockOf(stoppages[0]!.from)} to ${clockOf(stoppages[0]!.to)}` : "the stops";
    tried.push({ what, input: "stop", scenario: null, recorded: withoutStops(recorded, stoppages, real.between ? real.between.mean * 60 : 0, scenario.shift.breaks) });
  }
  return tried;
}

/**
 * The recorded day as it would have gone on: what came after a stop comes earlier by the work that the stop was longer than usual, and the breaks of the
 * shift stay where they are. A truck that stood at the storage meanwhile stood there as long as trucks usually do.
 */
export function withoutStops(recorded: readonly Weighing[], stoppages: readonly Stoppage[], usual: number, pauses: readonly Pause[] = []): Weighing[] {
  const stays = staysOf(recorded, pauses);
  const usualStay = stays.length > 0 ? median(stays) : 0;
  const lost = (stop: Stoppage) => Math.max(0, stop.worked - usual);
  return recorded.map((weighing) => {
    const by = stoppages.reduce((sum, stop) => sum + (weighing.at >= stop.to ? lost(stop) : 0), 0);
    const at = workBefore(weighing.at, by, pauses);
    if (weighing.out === null) return { ...weighing, at };
    const stay = workedBetween(weighing.at, weighing.out, pauses);
    const during = stoppages.reduce((sum, stop) => sum + (weighing.at < stop.to && weighing.out! > stop.from ? lost(stop) : 0), 0);
    return { ...weighing, at, out: during > 0 ? at + Math.max(Math.min(stay, usualStay), stay - during) : workBefore(weighing.out, by, pauses) };
  });
}

/** What counts for the difference: each once, those that follow from others left out. */
const WEIGHED: readonly JudgedName[] = JUDGED_NAMES.filter((name) => name !== "atStorage" && name !== "loads");
/** A figure that hardly differs between days is held to this share of its mean, not to its spread. Assumption of this project. */
const LEAST_SPREAD = 0.02;

/** Orders what was tried by how much of the difference it takes away, the best of each input; nothing where luck alone would put the day as far off. */
export function explain(tried: readonly (Tried & { readonly days: readonly DayOfLoads[] | null })[], real: DayOfLoads, base: readonly DayOfLoads[], pauses: readonly Pause[]): Explained[] {
  const beyondLuck = distanceFrom(base);
  const before = beyondLuck(real, base);
  if (before <= 0) return [];
  const best = new Map<Input, Explained>();
  for (const { what, input, days, recorded } of tried) {
    const left = recorded ? beyondLuck(measureDay(recorded, pauses), base) : days ? beyondLuck(real, days) : null;
    if (left !== null && left < (best.get(input)?.left ?? Infinity)) best.set(input, { input, what, closes: 1 - Math.max(0, left) / before, left });
  }
  return [...best.values()].sort((a, b) => a.left - b.left);
}

/**
 * How far a recorded day lies from the mean of rehearsed ones beyond luck: the sum of squares of its figures, each in standard deviations between
 * the days of `base`, less one for each figure, which is what a day as rehearsed comes to on average.
 */
function distanceFrom(base: readonly DayOfLoads[]) {
  const scales = WEIGHED.map((name) => {
    const values = base.map((day) => judgedOf(name, day)).filter(Number.isFinite);
    return values.length === 0 ? NaN : Math.max(values.length > 1 ? sampleStandardDeviation(values) : 0, LEAST_SPREAD * Math.abs(mean(values)));
  });
  return (real: DayOfLoads, days: readonly DayOfLoads[]) => WEIGHED.reduce((sum, name, i) => {
    const values = days.map((day) => judgedOf(name, day)).filter(Number.isFinite);
    const z = values.length === 0 ? NaN : (judgedOf(name, real) - mean(values)) / scales[i]!;
    return Number.isFinite(z) ? sum + z * z - 1 : sum;
  }, 0);
}
