/**
 * Many numbers, few words: the same small summary of the day for 3, 4, 5 ... trucks, or packing tractors, on the same luck, ready for small
 * pictures side by side.
 */
import { measuresOf } from "../findings/findings.ts";
import { summarise } from "../findings/summary.ts";
import type { Measure, Station } from "../findings/types.ts";
import { bottleneckOf } from "../findings/verdict.ts";
import { hashOf } from "../scenario/hash.ts";
import { LIMITS } from "../scenario/limits.ts";
import type { Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import { usualKind, withPackers, withTrucks } from "./change.ts";
import type { EffectName } from "./effectnames.ts";
import { effectsOf, type Effects } from "./effects.ts";
import { costFigure, figureOf } from "./figures.ts";
import type { Over } from "./overs.ts";
import { checkedRehearsals, usualRehearsals } from "./rehearsal.ts";
import { Roster } from "./roster.ts";
import type { Study } from "./work.ts";

/** Pictures that fit on a page. */
export const MOST_MULTIPLES = 12;

/** One small picture: where the time of chopper and trucks goes, and what comes of it. */
export interface Multiple {
  /** of what the study goes over */ readonly count: number;
  /** why there are no figures: the crew never gets done */ readonly endless: string | null;
  /** of the chopper's time in the field */ readonly chopper: { readonly cutting: number; readonly waitingForTrucks: number; readonly waitingForStorage: number } | null;
  /** min per trip: waiting at the storage and scale, and the whole round */ readonly truck: { readonly waiting: number; readonly round: number } | null;
  /** of the crew's time on the clamp, without debt */ readonly idle: number | null;
  /** t/h */ readonly pace: Measure | null;
  /** kg DM/m3 */ readonly density: Measure | null;
  /** h after midnight */ readonly closedAt: Measure | null;
  readonly cost: Measure | null;
  readonly chance: number | null;
  readonly bottleneck: Station | null;
  /** against one fewer, on the same days; null for the first */ readonly more: Effects | null;
}

export interface Multiples {
  readonly engine: string;
  readonly scenario: { readonly name: string; readonly hash: string };
  readonly seed: number;
  readonly rehearsals: number;
  readonly over: Over;
  /** the kind of truck, or the storage whose packing tractors they are */ readonly kind: string;
  /** how many the scenario has */ readonly now: number;
  /** kg DM/m3 */ readonly target: number;
  readonly cost: "costPerTonne" | "costPerTonneFed";
  readonly multiples: readonly Multiple[];
  /** the fewest after which one more moves nothing that counts; null where even the last still does */ readonly enough: number | null;
  readonly inWords: string;
}

export interface MultiplesOptions {
  /** trucks when left out */ readonly over?: Over;
  /** the fewest and the most; two fewer to three more than now when left out */ readonly from?: number;
  readonly to?: number;
  /** for trucks: index into the scenario's; the kind of which there are most when left out */ readonly kind?: number;
  readonly rehearsals?: number;
  readonly seed?: number;
}

/** Confidence that the effects of all steps hold at once. */
const CONFIDENCE = 0.95;

/** Rehearses the day with each number. @throws RangeError in the user's words for a range that is none or too long */
export function* multiples(scenario: Scenario, options: MultiplesOptions = {}): Study<Multiples, readonly Multiple[]> {
  const over = options.over ?? "trucks";
  const { kind, now, least, most, change } = over === "trucks" ? goingOverTrucks(scenario, options.kind ?? usualKind(scenario)) : goingOverTractors(scenario);
  const { from = Math.max(least, now - 2), to = Math.min(most, now + 3) } = options;
  const { many, Many } = WORDS[over];
  if (!Number.isInteger(from) || !Number.isInteger(to) || from < least || to < from) throw new RangeError(`${Many} from ${from} to ${to} are no range: whole numbers of ${least} and more, the smaller one first, would do.`);
  if (to - from + 1 > MOST_MULTIPLES) throw new RangeError(`${to - from + 1} numbers of ${many} are too many for small pictures; up to ${MOST_MULTIPLES} would do.`);
  const rehearsals = checkedRehearsals(options.rehearsals ?? usualRehearsals(scenario));
  const seed = options.seed ?? scenario.seed;

  const roster = new Roster(seed);
  const plans = Array.from({ length: to - from + 1 }, (_, i) => roster.add(change(from + i)));
  yield* roster.bringTo(rehearsals, plans, roster.expected(rehearsals));
  const at = (plan: number) => ({ scenario: roster.scenarios[plan]!, days: roster.daysOf(plan) });
  const ended = plans.filter((plan) => roster.whyEndless(plan) === null);
  const cost = costFigure(ended.map(at));
  const confidence = 1 - (1 - CONFIDENCE) / Math.max(1, plans.length - 1);
  const shown = plans.map((plan, i): Multiple => {
    const count = from + i;
    const endless = roster.whyEndless(plan);
    if (endless !== null) return { count, endless, chopper: null, truck: null, idle: null, pace: null, density: null, closedAt: null, cost: null, chance: null, bottleneck: null, more: null };
    const { scenario: changed, days } = at(plan);
    const { chopperCutting, chopperWaiting, chopperWaitingOnStorage, truckWaiting, truckCycle, packingIdle, deliveryRate, dryDensity, ...measures } = measuresOf(days);
    const before = plans[i - 1];
    return {
      count, endless: null, idle: packingIdle?.mean ?? null, pace: deliveryRate ?? null, density: dryDensity ?? null, closedAt: summarise(figureOf(changed, days, "closedAt"), "h"), cost: measures[cost] ?? null,
      chopper: chopperCutting && chopperWaiting && chopperWaitingOnStorage
        ? { cutting: chopperCutting.mean, waitingForTrucks: chopperWaiting.mean - chopperWaitingOnStorage.mean, waitingForStorage: chopperWaitingOnStorage.mean } : null,
      truck: truckWaiting && truckCycle ? { waiting: truckWaiting.mean, round: truckCycle.mean } : null,
      chance: days.filter((day) => day.keepsPace).length / days.length, bottleneck: bottleneckOf(changed, days),
      more: before === undefined || roster.whyEndless(before) !== null ? null : effectsOf(at(before), at(plan), cost, confidence),
    };
  });
  const enough = enoughOf(shown, over);
  return {
    engine: ENGINE_VERSION, scenario: { name: scenario.name, hash: hashOf(scenario) }, seed, rehearsals, over, kind, now, target: scenario.targets.dryDensity, cost, multiples: shown, enough,
    inWords: shown.length === 1 ? "One number alone does not tell what one more would do." : enough === null ? WORDS[over].more(to) : WORDS[over].enough(enough),
  };
}

interface Going {
  readonly kind: string;
  readonly now: number;
  /** as far down and up as it may go */ readonly least: number;
  readonly most: number;
  readonly change: (count: number) => Scenario;
}

function goingOverTrucks(scenario: Scenario, k: number): Going {
  const kind = scenario.trucks[k];
  if (kind === undefined) throw new RangeError(`There is no kind of truck number ${k}.`);
  return { kind: kind.kind, now: kind.count, least: 1, most: LIMITS.trucks, change: (count) => withTrucks(scenario, count, k) };
}

function goingOverTractors(scenario: Scenario): Going {
  const crop = scenario.storages.map((_, s) => scenario.fields.reduce((sum, field) => sum + (field.storages[0] === s ? field.area * field.yield : 0), 0));
  const s = crop.indexOf(Math.max(...crop));
  const { name, tractors } = scenario.storages[s]!;
  return { kind: name, now: tractors.filter(({ spreads }) => spreads === null).length, least: 0, most: LIMITS.tractors, change: (count) => withPackers(scenario, s, count) };
}

const numberOf = (one: string, many: string) => (count: number): string => `${count} ${count === 1 ? one : many}`;
const trucks = numberOf("truck", "trucks");
const packers = numberOf("packing tractor", "packing tractors");

const WORDS = {
  trucks: {
    many: "trucks", Many: "Trucks",
    more: (to: number) => `Up to ${trucks(to)}, even the last one still brings more or gets the day done earlier.`,
    enough: (count: number) => `From ${trucks(count)} on, one more neither brings more nor gets the day done earlier: it only waits.`,
  },
  tractors: {
    many: "packing tractors", Many: "Packing tractors",
    more: (to: number) => `Up to ${packers(to)} beside the blade, even the last one still packs denser, keeps the trucks moving or gets the day done earlier.`,
    enough: (count: number) => `From ${packers(count)} beside the blade on, one more neither packs denser nor gets the day done earlier: it only waits.`,
  },
} as const satisfies Record<Over, unknown>;

/** What one more is for. */
const GAINS = { trucks: ["pace", "finish"], tractors: ["density", "pace", "finish"] } as const satisfies Record<Over, readonly EffectName[]>;

/** The fewest from which on no step gains anything that it is for. */
function enoughOf(shown: readonly Multiple[], over: Over): number | null {
  const gains = ({ more }: Multiple) => more === null || GAINS[over].some((name) => more.by[name].moves && more.by[name].better);
  let enough: number | null = null;
  for (let i = shown.length - 1; i > 0 && !gains(shown[i]!); i--) enough = shown[i - 1]!.count;
  return enough;
}
