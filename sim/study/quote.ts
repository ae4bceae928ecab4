/** A quote: the price that covers the cost of the work on so many days of a hundred, by the tonne, the hour and the hectare. */
import { quantile, summarise } from "../findings/summary.ts";
import type { DayFacts } from "../findings/facts.ts";
import type { Measure } from "../findings/types.ts";
import { EndlessDay } from "../harvest/day.ts";
import { hashOf } from "../scenario/hash.ts";
import type { Scenario } from "../scenario/types.ts";
import { formatNumber } from "../scenario/units.ts";
import { ENGINE_VERSION } from "../version.ts";
import { isWhole } from "./figures.ts";
import { checkedRehearsals, usualRehearsals } from "./rehearsal.ts";
import { Roster } from "./roster.ts";
import type { Study } from "./work.ts";

/** Shares of days that a price is told for. */
export const COVERED = [0.5, 0.8, 0.9] as const;

/** What is paid for: fresh tonnes delivered, hours from the start of the shift until the clamp is closed, hectares cut. */
export const PAID_UNITS = ["perTonne", "perHour", "perHectare"] as const;
export type PaidUnit = (typeof PAID_UNITS)[number];

export interface Price {
  /** share of days on which it covers the cost */ readonly covers: number;
  /** in the scenario's currency */ readonly price: number;
  /** 95 % confidence limits of the price that covers so many days of all; null where the days do not tell */ readonly low: number | null;
  readonly high: number | null;
}

export interface Quote {
  readonly engine: string;
  readonly scenario: { readonly name: string; readonly hash: string };
  readonly seed: number;
  readonly rehearsals: number;
  readonly currency: string;
  /** whole cost of a day's work */ readonly cost: Measure;
  readonly prices: Readonly<Record<PaidUnit, readonly Price[]>>;
  readonly inWords: string;
}

export interface QuoteOptions { readonly rehearsals?: number; readonly seed?: number }

/**
 * What the day's work costs whoever does it: machines, drivers and fuel of the harvest, whoever pays. What the farm pays a contractor as a
 * price is no cost but what is to be found; cover, concrete and lost feed are the farm's own.
 */
export function costOfWork({ choppers }: Scenario, { costs }: DayFacts): number {
  const priced = new Set(choppers.filter(({ paid }) => paid !== "by-hour").map(({ name }) => name));
  return costs.reduce((sum, { stage, what, amount }) => sum + (stage === "harvest" && !priced.has(what) ? amount : 0), 0);
}

/** Units of work done on a day. */
export function unitsDone({ fields }: Scenario, { measures, uncut }: DayFacts): Readonly<Record<PaidUnit, number>> {
  const area = fields.reduce((sum, field) => sum + field.area, 0) / 10_000;
  const cut = measures.delivered * 1000;
  return { perTonne: measures.delivered, perHour: measures.finishedAt, perHectare: area * (cut / (cut + uncut)) };
}

/** Works the quote out. @throws RangeError in the user's words, EndlessDay */
export function* quote(scenario: Scenario, options: QuoteOptions = {}): Study<Quote> {
  const rehearsals = checkedRehearsals(options.rehearsals ?? usualRehearsals(scenario));
  const seed = options.seed ?? scenario.seed;
  const roster = new Roster(seed);
  const plan = roster.add(scenario);
  yield* roster.bringTo(rehearsals, [plan], rehearsals);
  const endless = roster.whyEndless(plan);
  if (endless !== null) throw new EndlessDay(endless);

  const days = roster.daysOf(plan);
  const costs = days.map((day) => costOfWork(scenario, day));
  const rates = (unit: PaidUnit) => days.map((day, i) => costs[i]! / unitsDone(scenario, day)[unit]);
  if (!PAID_UNITS.every((unit) => isWhole(rates(unit)))) throw new RangeError("On some of the days nothing is delivered: there is nothing to quote for.");
  const prices = Object.fromEntries(PAID_UNITS.map((unit) => [unit, pricesOf(rates(unit))])) as Record<PaidUnit, Price[]>;
  const { currency } = scenario.money;
  const [half, , most] = prices.perTonne;
  return {
    engine: ENGINE_VERSION, scenario: { name: scenario.name, hash: hashOf(scenario) }, seed, rehearsals, currency, cost: summarise(costs, currency)!, prices,
    inWords: `${formatNumber(half!.price, 2)} ${currency} a tonne covers the cost on half of the days, ${formatNumber(most!.price, 2)} on nine of ten. Profit, travel to the farm and idle days are not in it.`,
  };
}

/** The lowest price that covers each share of the days. */
function pricesOf(rates: readonly number[]): Price[] {
  const sorted = [...rates].sort((a, b) => a - b);
  return COVERED.map((covers): Price => {
    const [low, high] = limitsOfQuantile(covers, sorted.length);
    return { covers, price: quantile(sorted, covers), low: low === null ? null : sorted[low]!, high: high === null ? null : sorted[high]! };
  });
}

/**
 * Positions, from 0, of the two ordered values that hold a quantile with 95 % confidence whatever the distribution: the number of values below it
 * is binomial (Thompson 1936, On confidence ranges for the median and other expectation distributions for populations of unknown
 * distribution form, Annals of Mathematical Statistics 7(3):122-128, from memory). Null where there are too few values for an end.
 */
export function limitsOfQuantile(share: number, n: number, confidence = 0.95): [low: number | null, high: number | null] {
  const risk = (1 - confidence) / 2;
  let low: number | null = null;
  let high: number | null = null;
  // The chance that at most k of n values lie below the quantile, k going up; in logarithms, since the first terms of many days are too small for a number.
  let term = n * Math.log1p(-share);
  let below = 0;
  for (let k = 0; k < n; k++) {
    below += Math.exp(term);
    if (below <= risk) low = k;
    if (below >= 1 - risk && high === null) high = k;
    term += Math.log((n - k) / (k + 1)) + Math.log(share / (1 - share));
  }
  return [low, high];
}
