/**
 * What to change: every remedy for a scenario rehearsed on the same days, ranked by what it costs and by what it gains, the best ones in
 * pairs as well; which do nothing and why; what one unit more of each resource is worth; and who can be sent home.
 */
import { cautionsFor, cautionOfHours, cautionOfTraffic, cautionOfWeight } from "../findings/cautions.ts";
import { measuresOf } from "../findings/findings.ts";
import type { Caution, Measure, MeasureName } from "../findings/types.ts";
import { clockOf } from "../findings/clock.ts";
import { EndlessDay } from "../harvest/day.ts";
import type { DayStart } from "../harvest/start.ts";
import { hashOf } from "../scenario/hash.ts";
import type { Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import { withLayerTerm } from "./change.ts";
import { EFFECTS, type EffectName } from "./effectnames.ts";
import { effectsOf, type Effects, type Rehearsed } from "./effects.ts";
import { costFigure, LEFT_STANDING } from "./figures.ts";
import { proofOf, shortOfWhat, unitsOf, worthOf, type Marginal, type Proof } from "./marginal.ts";
import { checkedRehearsals, usualRehearsals } from "./rehearsal.ts";
import { remediesFor, remediesToday, together, type Burden, type NotTried, type Remedy } from "./remedies.ts";
import { Roster } from "./roster.ts";
import { whyNothing } from "./why.ts";
import type { Study } from "./work.ts";

/** `helps`: moves something for the better and nothing for the worse but the cost; `mixed`; `harms`; `saves`: only cheaper; `nothing`; `endless`: the crew never gets done. */
export type Does = "helps" | "mixed" | "harms" | "saves" | "nothing" | "endless";

export interface FixRow extends Omit<Remedy, "apply"> {
  /** ids of the remedies that a pair is made of */ readonly parts: readonly string[];
  readonly does: Does;
  readonly effects: Effects | null;
  /** the same where the relation always sees a 15 cm layer, against the plan seen so; only with a thinner layer, alone or in a pair */ readonly withoutLayerTerm?: Effects;
  /** why it does nothing, or has no end */ readonly why: string | null;
  readonly cautions: readonly Caution[];
}

/** Ids of the rows by what they gain: the best first, only those that move it for the better and leave no more crop standing: less work is no gain. */
export type Ranking = Readonly<Record<EffectName, readonly string[]>>;

export interface SentHome {
  readonly id: string;
  readonly what: string;
  readonly can: boolean;
  readonly inWords: string;
}

export interface Fixes {
  readonly engine: string;
  readonly scenario: { readonly name: string; readonly hash: string };
  readonly seed: number;
  readonly rehearsals: number;
  /** that all limits of one column hold together */ readonly confidence: number;
  /** the cost the ranking goes by */ readonly cost: "costPerTonne" | "costPerTonneFed";
  readonly base: { readonly measures: Readonly<Partial<Record<MeasureName, Measure>>>; readonly chance: number };
  readonly rows: readonly FixRow[];
  readonly ranking: Ranking;
  readonly marginal: readonly Marginal[];
  readonly proof: Proof;
  readonly sendHome: readonly SentHome[];
  readonly notTried: readonly NotTried[];
  /** wall clock from which the rest of a day was rehearsed; absent for whole days */ readonly from?: string;
}

/** The ranking on the first days, to be shown while the rest are rehearsed. */
export interface FirstRanking { readonly rehearsals: number; readonly ranking: Ranking; readonly rows: readonly FixRow[] }

export interface FixesOptions {
  readonly rehearsals?: number;
  readonly seed?: number;
  /** where the rest of the day starts from; the morning when left out. Only what can still be done then is tried */ readonly start?: DayStart;
}

const CONFIDENCE = 0.95;
/** What nobody buys a unit more of in the middle of a day. */
const FIXED_TODAY: readonly Marginal["station"][] = ["weighing", "tipping", "apron", "storage"];
/** Days after which a first ranking is told. */
const FIRST = 20;
/** The best of each column that are tried in pairs, and the most pairs. */
const BEST_OF_EACH = 2;
export const MOST_PAIRS = 10;
/** The most of them that one remedy is part of: with each of the other best once. */
const MOST_PAIRS_OF_ONE = Math.min(MOST_PAIRS, BEST_OF_EACH * EFFECTS.length - 1);
/** Families that undo each other. */
const OPPOSITES: readonly (readonly string[])[] = [["truck-more", "truck-fewer"], ["tractor-more", "tractor-fewer"]];

/** What is tried one by one. */
function triedAlone(scenario: Scenario, start: DayStart | undefined) {
  const { remedies, notTried } = start ? remediesToday(scenario, start) : remediesFor(scenario);
  const units = unitsOf(scenario).filter(({ station }) => !start || !FIXED_TODAY.includes(station));
  const thin = remedies.find(({ family }) => family === "thinner-layer");
  return { remedies, notTried, units, thin, isThinBothWays: thin !== undefined && scenario.packing.layerTerm };
}

/** Plans that pairs add at the most, those with a thinner layer both ways: which pairs are tried is known only when the remedies are ranked. */
const mostForPairs = (isThinBothWays: boolean): number => MOST_PAIRS + (isThinBothWays ? MOST_PAIRS_OF_ONE : 0);

/** Plans that the study rehearses at the most: fewer when some of them are equal, or fewer pairs go together. */
export function mostPlans(scenario: Scenario, { start }: Pick<FixesOptions, "start">): number {
  const { remedies, units, isThinBothWays } = triedAlone(scenario, start);
  return 1 + remedies.length + (isThinBothWays ? 2 : 0) + units.length + mostForPairs(isThinBothWays);
}

/**
 * Studies the remedies of a scenario.
 * @throws RangeError in the user's words for a number of rehearsals that is none; EndlessDay when the plan itself has no end
 */
export function* fixes(scenario: Scenario, options: FixesOptions = {}): Study<Fixes, FirstRanking> {
  const seed = options.seed ?? scenario.seed;
  const rehearsals = checkedRehearsals(options.rehearsals ?? usualRehearsals(scenario));
  const { start } = options;
  const { remedies, notTried, units, thin, isThinBothWays } = triedAlone(scenario, start);

  const roster = new Roster(seed, start);
  const base = roster.add(scenario);
  const plans = new Map(remedies.map((remedy) => [remedy.id, roster.add(remedy.apply(scenario))]));
  // Wherever a thinner layer is advised it is shown without its term as well.
  const termOff = (plan: Scenario) => roster.add(withLayerTerm(plan, false));
  const off = isThinBothWays ? { base: termOff(scenario), thin: termOff(thin!.apply(scenario)) } : null;
  const unitPlans = units.map(({ apply }) => roster.add(apply(scenario)));

  const all = roster.scenarios.map((_, plan) => plan);
  const expected = roster.expected(rehearsals) + mostForPairs(isThinBothWays) * rehearsals;
  const confidence = 1 - (1 - CONFIDENCE) / (remedies.length + MOST_PAIRS);
  const at = (plan: number): Rehearsed => ({ scenario: roster.scenarios[plan]!, days: roster.daysOf(plan) });

  yield* roster.bringTo(Math.min(FIRST, rehearsals), all, expected);
  const endless = roster.whyEndless(base);
  if (endless !== null) throw new EndlessDay(endless);
  const cost = costFigure(all.filter((plan) => roster.whyEndless(plan) === null).map(at));
  const row = (remedy: Remedy, plan: number, parts: readonly string[] = []): FixRow => rowOf(remedy, at(base), at(plan), { cost, confidence, endless: roster.whyEndless(plan), parts });
  const singles = () => remedies.map((remedy) => row(remedy, plans.get(remedy.id)!));
  if (rehearsals > FIRST) {
    const first = singles();
    yield* roster.bringTo(rehearsals, all, expected, { rehearsals: FIRST, ranking: rankingOf(first), rows: first });
  }

  const bothWays = (each: FixRow, plan: number | undefined): FixRow => {
    if (off === null || plan === undefined || [off.base, plan].some((of) => roster.whyEndless(of) !== null)) return each;
    const effects = effectsOf(at(off.base), at(plan), cost, confidence);
    return effects ? { ...each, withoutLayerTerm: effects } : each;
  };
  const rows = singles().map((each) => bothWays(each, each.id === thin?.id ? off?.thin : undefined));
  const pairs = pairsOf(remedies, rankingOf(rows.filter(({ does }) => does !== "harms")));
  const pairPlans = pairs.map(([a, b]) => roster.add(together(a, b).apply(scenario)));
  const pairsOff = pairs.map(([a, b]) => (off !== null && [a, b].includes(thin!) ? termOff(together(a, b).apply(scenario)) : undefined));
  yield* roster.bringTo(rehearsals, [...pairPlans, ...pairsOff.filter((plan) => plan !== undefined)], roster.expected(rehearsals));
  pairs.forEach(([a, b], i) => rows.push(bothWays(row(together(a, b), pairPlans[i]!, [a.id, b.id]), pairsOff[i])));

  const short = shortOfWhat(at(base));
  const marginal = units.flatMap(({ station, unit }, i): Marginal[] => {
    const plan = unitPlans[i]!;
    const effects = roster.whyEndless(plan) === null ? effectsOf(at(base), at(plan), cost, 1 - (1 - CONFIDENCE) / units.length) : null;
    return effects ? [{ station, unit, effects, worth: worthOf(effects, at(base), at(plan), short) }] : [];
  });
  const { days } = at(base);
  return {
    engine: ENGINE_VERSION, scenario: { name: scenario.name, hash: hashOf(scenario) }, seed, rehearsals, confidence: CONFIDENCE, cost,
    base: { measures: measuresOf(days), chance: days.filter((day) => day.keepsPace).length / days.length },
    rows, ranking: rankingOf(rows), marginal, proof: proofOf(at(base), marginal, short),
    sendHome: rows.filter(({ family, parts }) => parts.length === 0 && (family === "truck-fewer" || family === "tractor-fewer")).map((each) => sentHome(each, scenario)),
    notTried,
    ...(start && { from: clockOf(start.at ?? scenario.shift.start) }),
  };
}

interface Judging { readonly cost: Fixes["cost"]; readonly confidence: number; readonly endless: string | null; readonly parts: readonly string[] }

function rowOf({ apply: _apply, ...remedy }: Remedy, before: Rehearsed, after: Rehearsed, { cost, confidence, endless, parts }: Judging): FixRow {
  const effects = endless === null ? effectsOf(before, after, cost, confidence) : null;
  const cautions = rowCautions(remedy, before, after);
  if (effects === null) return { ...remedy, parts, does: "endless", effects, why: endless ?? "Nothing is delivered on some of the days.", cautions };
  const does = doesOf(effects);
  return { ...remedy, parts, does, effects, why: does === "nothing" ? whyNothing(remedy, before, after, effects.by.waiting) : null, cautions };
}

/**
 * What a remedy does, by what it moves, the chance of keeping pace included. Cost alone neither helps nor harms the day; a remedy that only costs does nothing. Nor does one after
 * which the chopper stands more or less and all else is as it was: the waiting is then only done elsewhere.
 */
function doesOf({ by, left, chance, chanceMoves }: Effects): Does {
  const leavesMore = left[1] - left[0] > LEFT_STANDING;
  const keepsMore = chanceMoves && chance[1] > chance[0];
  const keepsLess = chanceMoves && !keepsMore;
  const moved = EFFECTS.filter((name) => name !== "cost" && name !== "pace" && by[name].moves)
    .filter((name, _, all) => name !== "waiting" || all.length > 1 || by.pace.moves);
  if (moved.length === 0 && !keepsLess && left[0] - left[1] > LEFT_STANDING) return "helps";
  if (moved.length === 0 && !leavesMore && !chanceMoves) {
    if (by.pace.moves) return by.pace.better ? "helps" : "harms";
    return by.cost.moves && by.cost.better ? "saves" : "nothing";
  }
  const gains = moved.filter((name) => by[name].better).length;
  const better = gains + (keepsMore ? 1 : 0);
  const worse = moved.length - gains + (leavesMore ? 1 : 0) + (keepsLess ? 1 : 0);
  return worse === 0 ? "helps" : better === 0 ? "harms" : "mixed";
}

const BURDENS: Readonly<Record<Burden, (scenario: Scenario, storage: number) => Caution>> = {
  weight: (scenario, storage) => cautionOfWeight(scenario.storages[storage]!), hours: cautionOfHours, traffic: cautionOfTraffic,
};

/** What the remedy puts on people, walls and yard, and every caution that the day did not have without it. */
function rowCautions({ burdens, storage }: Omit<Remedy, "apply">, before: Rehearsed, after: Rehearsed): Caution[] {
  const own = burdens.map((burden) => BURDENS[burden](before.scenario, storage ?? 0));
  if (after.days.length === 0) return own;
  const key = ({ id, where }: Caution) => `${id} ${where}`;
  const had = new Set([...cautionsFor(before.scenario, before.days), ...own].map(key));
  return [...own, ...cautionsFor(after.scenario, after.days).filter((caution) => !had.has(key(caution)))];
}

function rankingOf(rows: readonly FixRow[]): Ranking {
  const ranked = (name: EffectName) => rows
    .filter(({ effects }) => effects?.by[name].moves === true && effects.by[name].better === true && effects.left[1] - effects.left[0] <= LEFT_STANDING)
    .sort((a, b) => Math.abs(b.effects!.by[name].mean) - Math.abs(a.effects!.by[name].mean))
    .map(({ id }) => id);
  return Object.fromEntries(EFFECTS.map((name) => [name, ranked(name)])) as unknown as Ranking;
}

/** Pairs of the best remedies of each column, those that go together, the best first. */
function pairsOf(remedies: readonly Remedy[], ranking: Ranking): (readonly [Remedy, Remedy])[] {
  const best = new Set<string>();
  for (let place = 0; place < BEST_OF_EACH; place++) for (const name of EFFECTS) {
    const id = ranking[name][place];
    if (id !== undefined) best.add(id);
  }
  const tried = [...best].map((id) => remedies.find((remedy) => remedy.id === id)!);
  const pairs = tried.flatMap((a, i) => tried.slice(i + 1).filter((b) => goTogether(a, b)).map((b) => inOrder(remedies, a, b)));
  return pairs.slice(0, MOST_PAIRS);
}

const goTogether = (a: Remedy, b: Remedy): boolean => a.family !== b.family && !OPPOSITES.some((pair) => pair.includes(a.family) && pair.includes(b.family));

/** As the list has them: what adds a tractor comes before what ballasts all, and a second place copies the crew as it then is. */
function inOrder(remedies: readonly Remedy[], a: Remedy, b: Remedy): readonly [Remedy, Remedy] {
  return remedies.indexOf(a) < remedies.indexOf(b) ? [a, b] : [b, a];
}

/** Whether the day is as good without it: nothing that counts gets noticeably worse, or the density still reaches the target. */
function sentHome({ id, what, effects, why }: FixRow, { targets }: Scenario): SentHome {
  if (effects === null) return { id, what, can: false, inWords: why ?? "" };
  const { density, finish, pace, cost } = effects.by;
  const worse: string[] = [];
  if (density.moves && !density.better && effects.densityAfter < targets.dryDensity) worse.push("the clamp is looser");
  if (finish.moves && !finish.better) worse.push("the day ends later");
  if (pace.moves && !pace.better) worse.push("less comes in by the hour");
  if (effects.chanceMoves && effects.chance[1] < effects.chance[0]) worse.push("packing keeps pace on fewer days");
  if (effects.left[1] - effects.left[0] > LEFT_STANDING) worse.push("crop is left standing");
  if (worse.length > 0) return { id, what, can: false, inWords: `Needed: without it ${worse.join(", ")}.` };
  const saves = cost.moves && cost.better ? "and the tonne gets cheaper" : "though the tonne gets no cheaper";
  return { id, what, can: true, inWords: `Can be sent home: nothing that counts gets noticeably worse, ${saves}.` };
}
