/**
 * The cheapest crew that meets the targets with the asked-for certainty: goes through the plans of the scenario's `search`, gives up by hand
 * what is hopeless, and rehearses the rest on the same days, the promising ones longer (see select.ts for the method and what it promises).
 */
import { mean } from "simple-statistics";
import { cautionOfWeight, cautionsFor } from "../findings/cautions.ts";
import type { DayFacts } from "../findings/facts.ts";
import { percent } from "../findings/figure.ts";
import type { Caution } from "../findings/types.ts";
import { hashOf } from "../scenario/hash.ts";
import type { Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import { isHopeless, leastTime } from "./bounds.ts";
import { withLayerTerm } from "./change.ts";
import { chanceOf, chanceWithoutLuck, type Chance } from "./chance.ts";
import { NOTICED } from "./effects.ts";
import { coarseFront } from "./front.ts";
import { plansOf, type Plan } from "./plans.ts";
import { PlanRecord, type CrewPlan } from "./planrecord.ts";
import { isDeterministic } from "./rehearsal.ts";
import { select, type Ask, type Fate, type Selection } from "./select.ts";
import { meets, searchTargets, shortfalls, TARGET_WORDS, type TargetName, type Targets } from "./targets.ts";
import type { Days, Study } from "./work.ts";

/** When nobody says otherwise. */
export const USUAL_SURE = 0.9;
/** Most that may be asked for (assumption of this project): the days it takes to tell grow without end towards certainty. */
export const MOST_SURE = 0.99;
/** The least chance of the right choice over repeated searches. */
const PROMISE = 0.95;
/** Share of the cost that does not matter (assumption of this project). */
const INDIFFERENCE = 0.01;
/** Most days of one plan, in times of what a plan without a fault needs to be told. */
const PATIENCE = 10;
/** Plans told beside the chosen one. */
const RUNNERS_UP = 5;
/** Plans that are rehearsed though all are hopeless, so that the nearest can be told. */
const LAST_TRY = 20;

export interface Nearest {
  readonly plan: CrewPlan;
  /** targets met too seldom, the worst first */ readonly fails: readonly TargetName[];
  readonly inWords: string;
}

export interface CrewSearch {
  readonly engine: string;
  readonly scenario: { readonly name: string; readonly hash: string };
  readonly seed: number;
  readonly sure: number;
  readonly promise: number;
  readonly targets: Targets;
  readonly plans: number;
  /** given up by hand, unrehearsed */ readonly hopeless: number;
  /** days rehearsed in all */ readonly days: number;
  /** null when no plan meets the targets often enough */ readonly chosen: CrewPlan | null;
  /** null when there is a chosen plan */ readonly nearest: Nearest | null;
  /** the cheapest others that seem to do, on the days they had */ readonly runnersUp: readonly CrewPlan[];
  /** plans that bring the crop in and that no other beats in cost, density and finish at once, by their means and by as much as is noticed; the cheapest first */ readonly front: readonly CrewPlan[];
  /** what applies to the chosen or nearest plan */ readonly cautions: readonly Caution[];
  /** the chosen or nearest plan where the relation always sees a 15 cm layer; only where it lays thinner than the scenario's own plan */
  readonly withoutLayerTerm: { /** kg DM/m3, mean */ readonly density: number; readonly chance: Chance } | null;
  readonly guarantee: string;
  /** the published methods behind it */ readonly method: string;
}

/** The methods, as a reader would look them up; see select.ts. */
const METHOD = "Often enough: Wald's sequential probability ratio test (1945, Annals of Mathematical Statistics 16(2):117-186). Cheapest: Kim & Nelson's "
  + "indifference-zone comparison on the same days (2001, ACM Transactions on Modeling and Computer Simulation 11(3):251-273). Both together as in Andradottir & "
  + "Kim (2010, Naval Research Logistics 57(5):403-421).";

export interface CrewSoFar { readonly rehearsed: number; readonly best: readonly CrewPlan[] }

export interface CrewOptions {
  readonly sure?: number;
  readonly seed?: number;
  /** false: rehearse even what is hopeless; for checking the bounds */ readonly prune?: boolean;
}

/** @throws RangeError in the user's words */
function checkedSure(sure: number): number {
  if (!(sure > 0 && sure < 1)) throw new RangeError(`How sure a plan is to be lies above 0 and below 1, such as 0.9, not at ${sure}: no number of days makes a plan certain.`);
  if (sure > MOST_SURE) throw new RangeError(`A plan can be asked to be sure up to ${MOST_SURE}, not ${sure}: telling more takes more days than are rehearsed.`);
  return sure;
}

/**
 * Searches.
 * @throws RangeError in the user's words: no search in the scenario, too many plans, a certainty that cannot be had
 */
export function* crewUp(scenario: Scenario, options: CrewOptions = {}): Study<CrewSearch, CrewSoFar> {
  const sure = checkedSure(options.sure ?? USUAL_SURE);
  const seed = options.seed ?? scenario.seed;
  const targets = searchTargets(scenario);
  const records = plansOf(scenario).map((plan, index) => new PlanRecord(plan, index, targets));
  const hopeless = hopelessOf(records, targets, options.prune ?? true);
  const lucky = !isDeterministic(scenario);
  const needed = Math.log((2 * records.length) / (1 - PROMISE)) / Math.log((sure + (1 - sure) / 2) / sure);

  const run = select({ plans: records.length, sure, promise: PROMISE, indifference: INDIFFERENCE, mostDays: Math.ceil(PATIENCE * needed), hopeless });
  let selection: Selection;
  if (lucky) {
    let next = run.next();
    while (!next.done) {
      const asks = next.value;
      yield* rehearse(records, asks, seed, expectedOf(records, asks));
      next = run.next(asks.map(({ plan, from, to }) => records[plan]!.trials(from, to)));
    }
    selection = next.value;
  } else {
    const asks = records.flatMap(({ index }) => (hopeless[index] ? [] : [{ plan: index, from: 0, to: 1 }]));
    yield* rehearse(records, asks, seed, asks.length);
    selection = withoutLuck(records, hopeless);
  }

  const told = (index: number) => records[index]!.told(selection.fates[index]!);
  const rehearsed = records.filter((record) => record.length > 0);
  const chosen = selection.chosen === null ? null : told(selection.chosen);
  const seems = rehearsed.filter(({ index, share }) => share >= sure && ["often", "dearer", "undecided"].includes(selection.fates[index]!)).sort((a, b) => a.meanCost - b.meanCost);
  const brought = rehearsed.filter((record) => record.bringsIn);
  const steps = brought.length > 0 ? [NOTICED.cost * Math.min(...brought.map((record) => record.meanCost)), NOTICED.density * scenario.targets.dryDensity, NOTICED.finish] : [];
  const nearest = chosen === null ? nearestOf(rehearsed, told, sure) : null;
  const named = chosen ?? nearest?.plan ?? null;
  const { cautions, withoutLayerTerm } = named === null ? { cautions: [], withoutLayerTerm: null } : yield* lookAgain(scenario, records[named.index]!.plan, targets, seed);
  const front = coarseFront(brought.sort((a, b) => a.meanCost - b.meanCost).map((record) => record.point), steps).map((i) => brought[i]!);
  return {
    engine: ENGINE_VERSION, scenario: { name: scenario.name, hash: hashOf(scenario) }, seed, sure, promise: lucky ? PROMISE : 1, targets,
    plans: records.length, hopeless: hopeless.filter(Boolean).length, days: rehearsed.reduce((sum, { length }) => sum + length, 0),
    chosen, nearest,
    runnersUp: seems.slice(0, RUNNERS_UP).map(({ index }) => told(index)), front: front.map(({ index }) => told(index)),
    cautions, withoutLayerTerm, guarantee: guaranteeOf(selection, sure, lucky), method: lucky ? METHOD : "Every plan was rehearsed.",
  };
}

/** Days of the named plan that are looked at again, for its cautions and for what a thin layer really does. */
const AGAIN = 30;

/** What must stand beside a plan that is named: its cautions, and a thinner layer shown with the layer term off as well. */
function* lookAgain(base: Scenario, { scenario, layer }: Plan, targets: Targets, seed: number): Study<Pick<CrewSearch, "cautions" | "withoutLayerTerm">, CrewSoFar> {
  const to = isDeterministic(scenario) ? 1 : AGAIN;
  const thin = layer !== null && layer < base.packing.layer && base.packing.layerTerm;
  const plain = withLayerTerm(scenario, false);
  const batches = [scenario, ...(thin ? [plain] : [])].map((plan, i) => ({ plan: i, scenario: plan, seed, from: 0, to }));
  const [days, off] = yield { batches, expected: batches.length * to };
  if (!days || "endless" in days) return { cautions: [], withoutLayerTerm: null };
  const mass = ({ storages }: Scenario, s: number) => storages[s]!.tractors.reduce((sum, tractor) => sum + tractor.mass, 0);
  const heavier = scenario.storages.filter((_, s) => mass(scenario, s) > mass(base, s)).map(cautionOfWeight);
  const met = (of: readonly DayFacts[]) => (isDeterministic(scenario) ? chanceWithoutLuck : chanceOf)(of.filter((day) => meets(shortfalls(plain, targets, day))).length, of.length);
  return {
    cautions: [...heavier, ...cautionsFor(scenario, days).filter(({ id, where }) => !heavier.some((caution) => caution.id === id && caution.where === where))],
    withoutLayerTerm: off && !("endless" in off) ? { density: mean(off.map((day) => day.measures.dryDensity)), chance: met(off) } : null,
  };
}

/** Who is given up by hand; when all are, the fastest are tried all the same. */
function hopelessOf(records: readonly PlanRecord[], targets: Targets, prune: boolean): boolean[] {
  const hopeless = records.map(({ plan }) => prune && isHopeless(plan.scenario, targets));
  if (hopeless.every(Boolean)) {
    const fastest = [...records].sort((a, b) => leastTime(a.plan.scenario) - leastTime(b.plan.scenario)).slice(0, LAST_TRY);
    for (const { index } of fastest) hopeless[index] = false;
  }
  return hopeless;
}

/** Has the days rehearsed that are not known yet; a plan without an end is not tried again. */
function* rehearse(records: readonly PlanRecord[], asks: readonly Ask[], seed: number, expected: number): Study<void, CrewSoFar> {
  const wanted = asks.filter(({ plan }) => !records[plan]!.endless);
  if (wanted.length === 0) return;
  const rehearsed = records.filter(({ length }) => length > 0);
  const best = [...rehearsed].sort((a, b) => b.share - a.share || a.meanCost - b.meanCost).slice(0, RUNNERS_UP).map((record) => record.told("open"));
  const batches = wanted.map(({ plan, from, to }) => ({ plan, scenario: records[plan]!.plan.scenario, seed, from, to }));
  const answers: readonly Days[] = yield { batches, expected, ...(best.length > 0 ? { soFar: { rehearsed: rehearsed.length, best } } : {}) };
  answers.forEach((answer, i) => records[wanted[i]!.plan]!.add(answer));
}

/** Days in all, at least: those had and those asked for. */
const expectedOf = (records: readonly PlanRecord[], asks: readonly Ask[]): number =>
  records.reduce((sum, { length }) => sum + length, 0) + asks.reduce((sum, { from, to }) => sum + to - from, 0);

/** Without luck one day says all: the cheapest that meets the targets, of equals the first. */
function withoutLuck(records: readonly PlanRecord[], hopeless: readonly boolean[]): Selection {
  const best = records.filter(({ length, share }) => length > 0 && share === 1).reduce<PlanRecord | null>((a, b) => (a === null || b.meanCost < a.meanCost ? b : a), null);
  const fate = ({ index, share }: PlanRecord): Fate => (hopeless[index] ? "hopeless" : index === best?.index ? "chosen" : share === 1 ? "dearer" : "seldom");
  return { chosen: best?.index ?? null, fates: records.map(fate), days: records.map(({ length }) => length), allDays: 0, indifference: 0, oftenFrom: 1, decided: true };
}

function guaranteeOf({ chosen, oftenFrom, decided }: Selection, sure: number, lucky: boolean): string {
  if (!lucky) return chosen === null ? "No luck in these days: none of the plans meets the targets." : "No luck in these days: the plan named is the cheapest of all that meet the targets.";
  return `Of 100 such searches at least ${PROMISE * 100} name a plan that meets all targets on ${percent(sure, 1)} of days or more, and the cheapest of those that meet them on ${percent(oftenFrom, 1)} `
    + `or more, where that one is cheaper by ${percent(INDIFFERENCE, 1)} or more than any other that might do; of plans that are closer, one may be named. It covers the luck of the day only.`
    + (decided ? "" : " Some plans so near to the asked-for chance that the days did not tell were given up; a cheaper one may be among them.");
}

/** The plan that comes nearest, and what it fails. */
function nearestOf(rehearsed: readonly PlanRecord[], told: (index: number) => CrewPlan, sure: number): Nearest | null {
  const best = rehearsed.reduce<PlanRecord | null>((a, b) => (a === null || b.share > a.share || (b.share === a.share && b.shortness < a.shortness) ? b : a), null);
  if (best === null) return null;
  const plan = told(best.index);
  const fails = (Object.entries(plan.targets) as [TargetName, Chance][]).filter(([, { share }]) => share < sure).sort((a, b) => a[1].share - b[1].share).map(([name]) => name);
  const how = fails.map((name) => `${TARGET_WORDS[name]} on ${percent(plan.targets[name]!.share)} of days`);
  const inWords = fails.length > 0
    ? `No plan of the search meets the targets on ${percent(sure)} of days. The nearest falls short of that: ${how.join(", ")}.`
    : `No plan of the search is told to meet all targets on ${percent(sure)} of days. The nearest meets each of them often enough, and all together on ${percent(plan.chance.share)}.`;
  return { plan, fails, inWords };
}
