/** Many trucks, few words: the same small summary of the day for 3, 4, 5 ... trucks, on the same luck, ready for small pictures side by side. */
import { measuresOf } from "../findings/findings.ts";
import { summarise } from "../findings/summary.ts";
import type { Measure, Station } from "../findings/types.ts";
import { bottleneckOf } from "../findings/verdict.ts";
import { hashOf } from "../scenario/hash.ts";
import { LIMITS } from "../scenario/limits.ts";
import type { Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import { usualKind, withTrucks } from "./change.ts";
import { checkedRehearsals } from "./compare.ts";
import { effectsOf, type Effects } from "./effects.ts";
import { costFigure, figureOf } from "./figures.ts";
import { usualRehearsals } from "./rehearsal.ts";
import { Roster } from "./roster.ts";
import type { Study } from "./work.ts";

/** Pictures that fit on a page. */
export const MOST_MULTIPLES = 12;

/** One small picture: where the time of chopper and trucks goes, and what comes of it. */
export interface Multiple {
  readonly trucks: number;
  /** why there are no figures: the crew never gets done */ readonly endless: string | null;
  /** of the chopper's time in the field */ readonly chopper: { readonly cutting: number; readonly waitingForTrucks: number; readonly waitingForStorage: number } | null;
  /** min per trip: waiting at the storage and scale, and the whole round */ readonly truck: { readonly waiting: number; readonly round: number } | null;
  /** t/h */ readonly pace: Measure | null;
  /** kg DM/m3 */ readonly density: Measure | null;
  /** h after midnight */ readonly closedAt: Measure | null;
  readonly cost: Measure | null;
  readonly chance: number | null;
  readonly bottleneck: Station | null;
  /** against one truck fewer, on the same days; null for the first */ readonly more: Effects | null;
}

export interface Multiples {
  readonly engine: string;
  readonly scenario: { readonly name: string; readonly hash: string };
  readonly seed: number;
  readonly rehearsals: number;
  readonly kind: string;
  /** trucks of that kind in the scenario */ readonly now: number;
  readonly cost: "costPerTonne" | "costPerTonneFed";
  readonly multiples: readonly Multiple[];
  /** the fewest trucks after which one more moves nothing that counts; null where even the last still does */ readonly enough: number | null;
  readonly inWords: string;
}

export interface MultiplesOptions {
  /** trucks of the kind; two fewer to three more than now when left out */ readonly from?: number;
  readonly to?: number;
  /** index into the scenario's trucks; the kind of which there are most when left out */ readonly kind?: number;
  readonly rehearsals?: number;
  readonly seed?: number;
}

/** Confidence that the effects of all steps hold at once. */
const CONFIDENCE = 0.95;

/** Rehearses the day with each number of trucks. @throws RangeError in the user's words for a range that is none or too long */
export function* multiples(scenario: Scenario, options: MultiplesOptions = {}): Study<Multiples, readonly Multiple[]> {
  const kind = options.kind ?? usualKind(scenario);
  const now = scenario.trucks[kind]?.count;
  if (now === undefined) throw new RangeError(`There is no kind of truck number ${kind}.`);
  const { from = Math.max(1, now - 2), to = Math.min(LIMITS.trucks, now + 3) } = options;
  if (!Number.isInteger(from) || !Number.isInteger(to) || from < 1 || to < from) throw new RangeError(`Trucks from ${from} to ${to} are no range: whole numbers, the smaller one first, would do.`);
  if (to - from + 1 > MOST_MULTIPLES) throw new RangeError(`${to - from + 1} numbers of trucks are too many for small pictures; up to ${MOST_MULTIPLES} would do.`);
  const rehearsals = checkedRehearsals(options.rehearsals ?? usualRehearsals(scenario));
  const seed = options.seed ?? scenario.seed;

  const roster = new Roster(seed);
  const plans = Array.from({ length: to - from + 1 }, (_, i) => roster.add(withTrucks(scenario, from + i, kind)));
  yield* roster.bringTo(rehearsals, plans, roster.expected(rehearsals));
  const at = (plan: number) => ({ scenario: roster.scenarios[plan]!, days: roster.daysOf(plan) });
  const ended = plans.filter((plan) => roster.whyEndless(plan) === null);
  const cost = costFigure(ended.map(at));
  const confidence = 1 - (1 - CONFIDENCE) / Math.max(1, plans.length - 1);
  const shown = plans.map((plan, i): Multiple => {
    const trucks = from + i;
    const endless = roster.whyEndless(plan);
    if (endless !== null) return { trucks, endless, chopper: null, truck: null, pace: null, density: null, closedAt: null, cost: null, chance: null, bottleneck: null, more: null };
    const { scenario: changed, days } = at(plan);
    const { chopperCutting, chopperWaiting, chopperWaitingOnStorage, truckWaiting, truckCycle, deliveryRate, dryDensity, ...measures } = measuresOf(days);
    const before = plans[i - 1];
    return {
      trucks, endless: null, pace: deliveryRate ?? null, density: dryDensity ?? null, closedAt: summarise(figureOf(changed, days, "closedAt"), "h"), cost: measures[cost] ?? null,
      chopper: chopperCutting && chopperWaiting && chopperWaitingOnStorage
        ? { cutting: chopperCutting.mean, waitingForTrucks: chopperWaiting.mean - chopperWaitingOnStorage.mean, waitingForStorage: chopperWaitingOnStorage.mean } : null,
      truck: truckWaiting && truckCycle ? { waiting: truckWaiting.mean, round: truckCycle.mean } : null,
      chance: days.filter((day) => day.keepsPace).length / days.length, bottleneck: bottleneckOf(changed, days),
      more: before === undefined || roster.whyEndless(before) !== null ? null : effectsOf(at(before), at(plan), cost, confidence),
    };
  });
  const enough = enoughOf(shown);
  return {
    engine: ENGINE_VERSION, scenario: { name: scenario.name, hash: hashOf(scenario) }, seed, rehearsals, kind: scenario.trucks[kind]!.kind, now, cost, multiples: shown, enough,
    inWords: enough === null
      ? `Up to ${to} trucks, each further one still brings more or gets the day done earlier.`
      : `From ${enough} trucks on, one more neither brings more nor gets the day done earlier: it only waits.`,
  };
}

/** The fewest trucks from which on no step gains pace or time. */
function enoughOf(shown: readonly Multiple[]): number | null {
  const gains = ({ more }: Multiple) => more === null || [more.by.pace, more.by.finish].some(({ moves, better }) => moves && better);
  let enough: number | null = null;
  for (let i = shown.length - 1; i > 0 && !gains(shown[i]!); i--) enough = shown[i - 1]!.trucks;
  return enough;
}
