/**
 * Finds the cheapest of many plans that meets its targets often enough, by sampling days of them one after another and spending the effort
 * on those that matter. It knows nothing of harvests: a day of a plan is a cost and whether the targets were met.
 *
 * Two published methods in one, as Andradottir & Kim put feasibility and comparison together (Andradottir & Kim 2010, Fully sequential
 * procedures for comparing constrained systems via simulation, Naval Research Logistics 57(5):403-421):
 * - *Often enough?* Wald's sequential probability ratio test on the days met (Wald 1945, Sequential tests of statistical hypotheses, Annals of
 *   Mathematical Statistics 16(2):117-186), between the asked-for chance and half the way from there to certainty. With the bound 1 / error the
 *   chance of a wrong decision is at most that error, whenever and in whatever order it is looked at; the error is shared by all plans.
 * - *Cheaper?* Kim & Nelson's fully sequential indifference-zone comparison on the same days (Kim & Nelson 2001, A fully sequential procedure for
 *   indifference-zone selection in simulation, ACM Transactions on Modeling and Computer Simulation 11(3):251-273; c = 1). Only a plan that is
 *   often enough may beat another.
 * Both are quoted from memory; the tests check what they promise.
 *
 * The guarantee, over repeated searches and with costs about normal: with a chance of at least `promise`, the plan chosen meets the targets at
 * least as often as asked for, and it is the cheapest of those that meet them as often as the upper end of the zone, if that one is cheaper by
 * the indifference or more than every other plan that might do. Where several are closer, one of the close ones may be chosen.
 */
import { mean, sampleVariance } from "simple-statistics";

/** One day of one plan. */
export interface Trial {
  readonly cost: number;
  readonly met: boolean;
}

export interface SelectionOptions {
  /** plans, numbered from 0 */ readonly plans: number;
  /** the share of days on which the targets must be met, above 0 and below 1 */ readonly sure: number;
  /** the least chance of the right choice over repeated searches */ readonly promise: number;
  /** cost differences under this do not matter: a share of the mean cost of all plans on their first days */ readonly indifference: number;
  /** the last say: most days of one plan; one that is not decided by then is given up */ readonly mostDays: number;
  /** plans that cannot do, told beforehand */ readonly hopeless?: readonly boolean[];
}

/** `chosen`; `often` enough, and undecided or dearer; `seldom`: the targets are met too seldom; `dearer`: beaten by one that is often enough; `hopeless`: never rehearsed; `undecided` within the most days. */
export type Fate = "chosen" | "often" | "seldom" | "dearer" | "hopeless" | "undecided" | "open";

export interface Selection {
  /** null when none is often enough */ readonly chosen: number | null;
  readonly fates: readonly Fate[];
  readonly days: readonly number[];
  readonly allDays: number;
  /** the cost difference that does not matter */ readonly indifference: number;
  /** end of the zone from which a plan counts as surely often enough */ readonly oftenFrom: number;
  /** false: some plan was given up undecided, so that the best may have been missed */ readonly decided: boolean;
}

export interface Ask { readonly plan: number; readonly from: number; readonly to: number }

/** Days of each plan before any comparison; the variance of a difference is taken from these. Few, so that plans that are much dearer cost little. */
export const FIRST_DAYS = 8;
/** Days at which a first ranking is told. */
const GLANCE = 2;
/** Days in one further look at a plan, and plans looked at side by side. */
const LOOK = 10;
const SIDE_BY_SIDE = 4;

/** Runs the selection. Yields the days it wants next, in a fixed order, and is given them in that order. */
export function* select(options: SelectionOptions): Generator<readonly Ask[], Selection, readonly (readonly Trial[])[]> {
  const { plans, sure, promise, mostDays, hopeless = [] } = options;
  const field = new Field(plans, hopeless);
  const error = (1 - promise) / 2;
  const judge = new Judge(sure, error / Math.max(1, field.count("open")));

  for (const days of [GLANCE, FIRST_DAYS]) yield* field.bringTo(field.standing(), Math.min(days, mostDays));
  const tried = field.standing();
  const indifference = tried.length > 0 ? Math.max(Number.MIN_VALUE, options.indifference * mean(tried.map((plan) => Math.abs(field.meanCost(plan))))) : 0;
  const duel = new Duel(field, indifference, error / Math.max(1, tried.length - 1));

  for (;;) {
    for (const plan of field.standing()) {
      const verdict = field.fates[plan] === "open" ? judge.on(field.met(plan), field.days(plan)) : null;
      if (verdict !== null) field.fates[plan] = verdict;
      else if (field.fates[plan] === "open" && field.days(plan) >= mostDays) field.fates[plan] = "undecided";
    }
    const often = field.with("often");
    for (const plan of field.standing()) {
      if (often.some((other) => other !== plan && field.fates[other] === "often" && duel.beats(other, plan))) field.fates[plan] = "dearer";
    }
    const left = field.standing();
    if (left.length === 0 || (left.length === 1 && field.fates[left[0]!] === "often")) break;
    const next = wanted(field, left, mostDays);
    if (next.length === 0) {
      // All that is left is often enough and has had its days: the cheapest on the days they share.
      const best = left.reduce((a, b) => (field.meanCost(b) < field.meanCost(a) ? b : a));
      for (const plan of left) if (plan !== best) field.fates[plan] = "dearer";
      break;
    }
    yield* field.bring(next, mostDays);
  }

  const chosen = field.with("often")[0] ?? null;
  if (chosen !== null) field.fates[chosen] = "chosen";
  const days = Array.from({ length: plans }, (_, plan) => field.days(plan));
  return {
    chosen, fates: field.fates, days, allDays: days.reduce((sum, each) => sum + each, 0), indifference, oftenFrom: judge.from,
    decided: !field.fates.includes("undecided"),
  };
}

/** Whom to look at next: the cheapest undecided ones, and of those that are often enough whoever has too few days for a comparison. */
function wanted(field: Field, left: readonly number[], mostDays: number): number[] {
  const byCost = [...left].filter((plan) => field.days(plan) < mostDays).sort((a, b) => field.meanCost(a) - field.meanCost(b) || a - b);
  const open = byCost.filter((plan) => field.fates[plan] === "open").slice(0, SIDE_BY_SIDE);
  if (open.length === 0) return byCost;
  // An undecided plan that has overtaken those that are often enough needs their company to be compared any further.
  const longest = Math.max(...open.map((plan) => field.days(plan)));
  return [...open, ...byCost.filter((plan) => field.fates[plan] === "often" && field.days(plan) < longest + LOOK)];
}

/** All plans, their days so far and what has become of them. */
class Field {
  readonly fates: Fate[];
  private readonly costs: number[][];
  private readonly sums: number[];
  private readonly metDays: number[];

  constructor(plans: number, hopeless: readonly boolean[]) {
    this.fates = Array.from({ length: plans }, (_, plan) => (hopeless[plan] ? "hopeless" : "open"));
    this.costs = Array.from({ length: plans }, () => []);
    this.sums = new Array<number>(plans).fill(0);
    this.metDays = new Array<number>(plans).fill(0);
  }

  /** Plans that may still be chosen. */
  standing(): number[] {
    return this.fates.flatMap((fate, plan) => (fate === "open" || fate === "often" ? [plan] : []));
  }

  with(fate: Fate): number[] {
    return this.fates.flatMap((each, plan) => (each === fate ? [plan] : []));
  }

  count(fate: Fate): number {
    return this.with(fate).length;
  }

  days(plan: number): number {
    return this.costs[plan]!.length;
  }

  met(plan: number): number {
    return this.metDays[plan]!;
  }

  meanCost(plan: number): number {
    return this.sums[plan]! / this.days(plan);
  }

  costsOf(plan: number): readonly number[] {
    return this.costs[plan]!;
  }

  /** Each of these plans to so many days. */
  *bringTo(plans: readonly number[], days: number) {
    yield* this.take(plans.filter((plan) => this.days(plan) < days).map((plan) => ({ plan, from: this.days(plan), to: days })));
  }

  /** A further look at each of these plans. */
  *bring(plans: readonly number[], mostDays: number) {
    yield* this.take(plans.map((plan) => ({ plan, from: this.days(plan), to: Math.min(mostDays, this.days(plan) + LOOK) })));
  }

  private *take(asks: readonly Ask[]): Generator<readonly Ask[], void, readonly (readonly Trial[])[]> {
    if (asks.length === 0) return;
    const answers = yield asks;
    answers.forEach((trials, i) => {
      const { plan } = asks[i]!;
      for (const { cost, met } of trials) {
        this.costs[plan]!.push(cost);
        this.sums[plan]! += cost;
        if (met) this.metDays[plan]! += 1;
      }
    });
  }
}

/** Wald's test: are the targets met often enough? */
class Judge {
  /** from this chance on a plan counts as surely often enough */ readonly from: number;
  private readonly bound: number;
  private readonly gain: number;
  private readonly loss: number;

  constructor(sure: number, error: number) {
    this.from = sure + (1 - sure) / 2;
    this.bound = Math.log(1 / error);
    this.gain = Math.log(this.from / sure);
    this.loss = Math.log((1 - this.from) / (1 - sure));
  }

  /** Null while it is open. */
  on(met: number, days: number): "often" | "seldom" | null {
    const ratio = met * this.gain + (days - met) * this.loss;
    if (ratio >= this.bound) return "often";
    return ratio <= -this.bound ? "seldom" : null;
  }
}

/** Kim & Nelson's comparison of two plans on the days they share. */
class Duel {
  private readonly variances = new Map<number, number>();
  private readonly h2: number;

  constructor(private readonly field: Field, private readonly indifference: number, error: number) {
    const n = FIRST_DAYS;
    this.h2 = (n - 1) * ((2 * error) ** (-2 / (n - 1)) - 1);
  }

  /** True when `other` is the cheaper one for sure, or equal as far as it matters and has had all the days that ask for it. */
  beats(other: number, plan: number): boolean {
    const shared = Math.min(this.field.days(other), this.field.days(plan));
    if (shared < FIRST_DAYS) return false;
    const [a, b] = [this.field.costsOf(other), this.field.costsOf(plan)];
    let dearer = 0;
    for (let day = 0; day < shared; day++) dearer += b[day]! - a[day]!;
    dearer /= shared;
    const spread = this.h2 * this.varianceOf(other, plan, a, b);
    const margin = Math.max(0, spread / (2 * shared * this.indifference) - this.indifference / 2);
    return dearer > margin || (dearer === 0 && margin === 0 && other < plan);
  }

  /** Of the difference, from the first days only, as the procedure asks. */
  private varianceOf(other: number, plan: number, a: readonly number[], b: readonly number[]): number {
    const key = Math.min(other, plan) * 1e7 + Math.max(other, plan);
    let variance = this.variances.get(key);
    if (variance === undefined) this.variances.set(key, (variance = sampleVariance(Array.from({ length: FIRST_DAYS }, (_, day) => b[day]! - a[day]!))));
    return variance;
  }
}
