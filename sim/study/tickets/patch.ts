/** What tickets can say about a scenario's inputs, as changes of its file with the size of the sample behind each, and what they cannot. */
import { median, sampleStandardDeviation } from "simple-statistics";
import type { Shape } from "../../kernel/shapes.ts";
import { ACTIVITIES, type Activity, type Scenario } from "../../scenario/types.ts";
import { formatNumber } from "../../scenario/units.ts";
import { TYPICAL } from "../../scenario/typical.ts";
import { fitShapes, FEWEST_FITTED, spreadSaid } from "./fit.ts";
import { usual, workedBetween, type Pause, type Weighing } from "./loads.ts";

/** A value as the scenario file writes it. */
export type Written = string | { readonly shape: string; readonly cv?: string };

export interface Change {
  readonly path: readonly (string | number)[];
  readonly value: Written;
  /** tickets behind it */ readonly n: number;
  readonly because: string;
  /** how the shape was chosen, for a statistician; null where the value is no shape */ readonly fit: string | null;
}

export interface Patch { readonly changes: readonly Change[]; /** a sentence each */ readonly cannot: readonly string[] }

/**
 * A load that falls short of the usual one by more than so many usual deviations is a rest from the end of a field; the deviation is taken from the
 * median of the distances, which such rests hardly move, and is 1 % of the load at the least. Assumptions of this project.
 */
const SHORT_BY = 4;
const LEAST_DEVIATION = 0.01;
/** From the median distance of normal values to their standard deviation: 1 / quantile(0.75). */
const OF_NORMAL = 1.4826;
/** Tickets from which on a mean is worth writing down, and a shape. Assumptions of this project. */
const FEWEST_MEAN = FEWEST_FITTED;
const FEWEST_SHAPE = 30;

const meanOf = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;
const written = (shape: Shape): Written => ("cv" in shape ? { shape: shape.kind, cv: `${formatNumber(shape.cv * 100, 1)} %` } : { shape: shape.kind });

const restsLeftOut = (rests: number): string => (rests === 0 ? "" : rests === 1 ? "; one rest from the end of a field left out" : `; ${rests} rests from the ends of fields left out`);

/** Full loads, kg: the rests from the ends of fields are no measure of a truck. */
export function fullLoads(weighings: readonly Weighing[]): number[] {
  const masses = weighings.map(({ mass }) => mass);
  if (masses.length === 0) return [];
  const usual = median(masses);
  const deviation = Math.max(LEAST_DEVIATION * usual, OF_NORMAL * median(masses.map((mass) => Math.abs(mass - usual))));
  return masses.filter((mass) => mass >= usual - SHORT_BY * deviation);
}

/** Times of work at the storage, s, of trucks that found nobody there: nothing of them was spent in a line. */
export function loneStays(weighings: readonly Weighing[], pauses: readonly Pause[] = []): number[] {
  let free = -Infinity;
  return weighings.flatMap(({ at, out }) => {
    if (out === null) return [];
    const alone = at >= free;
    free = Math.max(free, out);
    return alone && out > at ? [workedBetween(at, out, pauses)] : [];
  });
}

/** A mean of values bears out what was expected when it lies within so many of its standard errors; the usual level, common practice, no source. */
const WITHIN = 2;
const bearOut = (values: readonly number[], expected: number): boolean => Math.abs(meanOf(values) - expected) <= WITHIN * sampleStandardDeviation(values as number[]) / Math.sqrt(values.length);

/** What the weighings of one or more days say about this scenario. */
export function patchOf(scenario: Scenario, weighings: readonly Weighing[]): Patch {
  const changes: Change[] = [];
  const cannot: string[] = [];
  const oneKind = scenario.trucks.length === 1;
  const vary = (activity: Activity, values: readonly number[], what: string) => {
    const fitted = values.length < FEWEST_SHAPE ? null : fitShapes(values);
    if (fitted) changes.push({ path: ["variation", activity], value: written(fitted.shape), n: values.length, because: spreadSaid(values, fitted, what), fit: fitted.why });
    else cannot.push(`How much ${what} vary: ${values.length} are too few or all alike; ${FEWEST_SHAPE} would do.`);
  };

  const loads = fullLoads(weighings);
  const [kind] = scenario.trucks;
  const holds = kind?.volume ? kind.volume * scenario.crop.looseDensity : Infinity;
  if (!oneKind) cannot.push("Loads by kind of truck: the tickets name trucks and not kinds, and the scenario has several.");
  else if (loads.length < FEWEST_MEAN) cannot.push(`The load of a truck: ${loads.length} full ones are too few; ${FEWEST_MEAN} would do.`);
  else if (bearOut(loads, holds) && (kind!.load >= holds || meanOf(loads) > holds)) cannot.push(`The mass that a truck may carry: its volume is full first, by the file at ${formatNumber(holds / 1000, 2)} t, and the ${formatNumber(meanOf(loads) / 1000, 2)} t on the tickets bear that out.`);
  else if (meanOf(loads) > holds) cannot.push(`The load of a truck: the tickets have ${formatNumber(meanOf(loads) / 1000, 2)} t, and its volume holds ${formatNumber(holds / 1000, 2)} t at the loose density of the file. One of the two is wrong there.`);
  else changes.push({ path: ["trucks", 0, "load"], value: `${formatNumber(meanOf(loads) / 1000, 2)} t`, n: loads.length, because: `mean of the full loads${restsLeftOut(weighings.length - loads.length)}`, fit: null });
  if (oneKind) vary("load", loads, "full loads");

  const alone = loneStays(weighings, scenario.shift.breaks).filter((stay) => stay > 0);
  const lone = usual(alone);
  const stood = alone.length - lone.length;
  if (!weighings.some(({ out }) => out !== null)) cannot.push("The time to tip: the tickets tell when a truck came and not when it left.");
  else if (!oneKind) cannot.push("The time to tip: the scenario has several kinds of truck.");
  else if (lone.length === 0) cannot.push("The time to tip: no ticket has a truck at the storage for any time at all.");
  else if (lone.length < FEWEST_MEAN) cannot.push(`The time to tip: only ${lone.length === 1 ? "one truck" : `${lone.length} trucks`} found nobody at the storage, and of the others it is not known how long they waited.`);
  else {
    changes.push({ path: ["trucks", 0, "tip"], value: `${formatNumber(meanOf(lone) / 60, 2)} min`, n: lone.length, because: `mean time from the scale until it left, of trucks that found nobody at the storage${stood === 0 ? "" : `; ${stood === 1 ? "one" : stood} that stood there more than three times as long as usual left out`}`, fit: null });
    vary("tip", lone, "stays of trucks alone at the storage");
  }
  cannot.push("Speeds on the road and the time to be filled: a ticket tells the whole round and not its parts.");
  cannot.push("What the chopper could do: the tickets tell what came, and it may have waited for trucks.");
  cannot.push("The yield: that a field was finished is on no ticket.");
  cannot.push("Packing, spreading and density: nothing of it goes over the scale.");
  return { changes, cannot };
}

/** Each activity with its usual variation, as a file says it: what a change of one is written into where the file has a single word for all. */
export const variationSaid = (word: unknown): Readonly<Record<Activity, string>> =>
  Object.fromEntries(ACTIVITIES.map((activity) => [activity, word === "none" ? "none" : `${formatNumber(TYPICAL[activity] * 100, 1)} %`])) as Record<Activity, string>;
