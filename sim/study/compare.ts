/** Two to six plans on the same days: what each gives, and how the others differ from the first, with limits. */
import { tonnes } from "../findings/figure.ts";
import { ledgerEnds } from "../findings/derivations/losses.ts";
import type { DayFacts } from "../findings/facts.ts";
import { measuresOf, moneyOf } from "../findings/findings.ts";
import { summarise } from "../findings/summary.ts";
import type { Measure, MeasureName, Span, Verdict } from "../findings/types.ts";
import { verdictFigures, verdictOf } from "../findings/verdict.ts";
import { band, chanceOfTarget } from "../forage/scatter.ts";
import { EndlessDay } from "../harvest/day.ts";
import { hashOf } from "../scenario/hash.ts";
import type { Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import { differenceOf, type Difference } from "./difference.ts";
import { BETTER, FIGURES, FIGURE_NAMES, figureOf, type FigureName } from "./figures.ts";
import { checkedRehearsals, usualRehearsals } from "./rehearsal.ts";
import { isLeftOpen, sidesOf, type PlanDifference, type Ranged } from "./sides.ts";
import { batchesOf, type Days, type Study } from "./work.ts";

/** Plans that fit side by side on a page. */
export const FEWEST_COMPARED = 2;
export const MOST_COMPARED = 6;
/** Confidence that all differences of one figure hold at once, however many plans are compared. */
const CONFIDENCE = 0.95;

const LETTERS = "ABCDEF";

export interface ComparedPlan {
  /** A for the first, B for the second ... */ readonly letter: string;
  readonly name: string;
  readonly hash: string;
  readonly verdict: Verdict;
  readonly measures: Readonly<Partial<Record<MeasureName, Measure>>>;
  /** h after midnight */ readonly closedAt: Measure | null;
  /** the published relation's own chance that the clamp reaches the target, beside the luck of the day */ readonly chanceOfTarget: number | null;
}

export interface ComparedDifference extends Difference {
  /** for the plan, against the first; null where it depends, or where the difference is not sure */ readonly better: boolean | null;
}

export interface Comparison {
  readonly engine: string;
  readonly seed: number;
  readonly rehearsals: number;
  readonly confidence: number;
  readonly plans: readonly ComparedPlan[];
  readonly differences: readonly {
    readonly plan: string;
    readonly against: string;
    readonly figures: Readonly<Partial<Record<FigureName, PlanDifference>>>;
  }[];
  /** what each plan is better at, and what the loss ledger or the published relation could not tell apart */ readonly inWords: readonly string[];
  /** what to know before the differences are trusted */ readonly notes: readonly string[];
}

export interface CompareOptions {
  readonly rehearsals?: number;
  /** instead of the first scenario's own */ readonly seed?: number;
}

/** All days of each plan, in its order; @throws EndlessDay when a plan's crew never gets done */
function* daysOfEach(scenarios: readonly Scenario[], seed: number, rehearsals: number): Study<Exclude<Days, { endless: string }>[]> {
  const batches = scenarios.flatMap((scenario, plan) => batchesOf(plan, scenario, seed, 0, rehearsals));
  const answers = yield { batches, expected: scenarios.length * rehearsals };
  return scenarios.map((_, plan) => answers.flatMap((days, i) => {
    if (batches[i]!.plan !== plan) return [];
    if ("endless" in days) throw new EndlessDay(days.endless);
    return days;
  }));
}

/**
 * Compares plans on common random numbers.
 * @throws RangeError in the user's words for too few or too many plans, or a number of rehearsals that is none; EndlessDay
 */
export function* compare(scenarios: readonly Scenario[], options: CompareOptions = {}): Study<Comparison> {
  if (scenarios.length < FEWEST_COMPARED || scenarios.length > MOST_COMPARED) {
    throw new RangeError(`A comparison takes ${FEWEST_COMPARED} to ${MOST_COMPARED} scenarios, not ${scenarios.length}.`);
  }
  const seed = options.seed ?? scenarios[0]!.seed;
  const rehearsals = checkedRehearsals(options.rehearsals ?? Math.max(...scenarios.map(usualRehearsals)));
  const days = yield* daysOfEach(scenarios, seed, rehearsals);
  // Bonferroni: each of k differences of one figure gets a k-th of the risk, so that all hold together.
  const confidence = 1 - (1 - CONFIDENCE) / (scenarios.length - 1);

  const plans = scenarios.map((scenario, i): ComparedPlan => {
    const measures = measuresOf(days[i]!);
    return {
      letter: LETTERS[i]!, name: scenario.name, hash: hashOf(scenario), verdict: verdictOf(verdictFigures(scenario, days[i]!, measures.dryDensity ?? null)), measures,
      closedAt: summarise(figureOf(scenario, days[i]!, "closedAt"), "h"),
      chanceOfTarget: measures.dryDensity ? chanceOfTarget(measures.dryDensity.mean, scenario.targets.dryDensity, scenario.crop.kind) : null,
    };
  });
  const open = scenarios.map((scenario, i) => leftOpenOf(scenario, days[i]!, plans[i]!.measures));
  const differences = scenarios.slice(1).map((scenario, i) => {
    const figures: Partial<Record<FigureName, PlanDifference>> = {};
    for (const name of FIGURE_NAMES) {
      if (COSTS.has(name) && scenario.money.currency !== scenarios[0]!.money.currency) continue;
      const difference = differenceOf(figureOf(scenarios[0]!, days[0]!, name), figureOf(scenario, days[i + 1]!, name), FIGURES[name], confidence);
      if (difference) figures[name] = { ...difference, better: betterOf(name, difference), within: withinOf(name, open[0]!, open[i + 1]!) };
    }
    return { plan: LETTERS[i + 1]!, against: LETTERS[0]!, figures };
  });
  const inWords = differences.flatMap(({ plan, against, figures }) => sidesOf(plan, against, figures));
  return { engine: ENGINE_VERSION, seed, rehearsals, confidence: CONFIDENCE, plans, differences, inWords, notes: notesOf(scenarios, rehearsals) };
}

/** In the plan's own money. */
const COSTS: ReadonlySet<FigureName> = new Set(["costPerTonne", "costPerTonneFed"]);

/** The figures of a plan that the model leaves between two ends: the density by the relation's band, what is fed and costs by the loss ledger's range. */
type LeftOpen = Readonly<Partial<Record<FigureName, Ranged>>>;

function leftOpenOf(scenario: Scenario, days: readonly DayFacts[], { dryDensity }: ComparedPlan["measures"]): LeftOpen {
  const ranged = ({ low, central, high }: Span): Ranged => ({ value: central, range: [low, high] });
  const cost = moneyOf(scenario, days).perTonne.fed;
  return {
    ...(dryDensity && { dryDensity: { value: dryDensity.mean, range: band(dryDensity.mean, scenario.crop.kind) } }),
    dryMatterFed: ranged(ledgerEnds(scenario, days).fedT),
    ...(cost && { costPerTonneFed: ranged(cost) }),
  };
}

function withinOf(name: FigureName, { [name]: a }: LeftOpen, { [name]: b }: LeftOpen): PlanDifference["within"] {
  if (!a || !b || !isLeftOpen(a, b)) return null;
  return name === "dryDensity" ? "relation" : "ledger";
}

/** Whether a difference is for the better; null where it depends or is not sure. */
export function betterOf(name: FigureName, { mean, sure }: Difference): boolean | null {
  const way = BETTER[name];
  return !sure || way === null ? null : (mean > 0) === (way === "more");
}

/** What to know before the differences are trusted. */
function notesOf(scenarios: readonly Scenario[], rehearsals: number): string[] {
  const [first, ...others] = scenarios as [Scenario, ...Scenario[]];
  const notes: string[] = [];
  const cropOf = (scenario: Scenario) => scenario.fields.reduce((sum, field) => sum + field.area * field.yield, 0);
  others.forEach((scenario, i) => {
    const letter = LETTERS[i + 1]!;
    if (Math.abs(cropOf(scenario) / cropOf(first) - 1) > 0.001) {
      notes.push(`${letter} has another crop to bring in than A, ${tonnes(cropOf(scenario))} instead of ${tonnes(cropOf(first))}: figures per day do not compare, those per tonne do.`);
    }
    if (scenario.targets.dryDensity !== first.targets.dryDensity) notes.push(`${letter} has another target density than A, so the share under target and the chance of keeping pace do not mean the same.`);
    if (scenario.money.currency !== first.money.currency) notes.push(`${letter} reckons in ${scenario.money.currency}, A in ${first.money.currency}: their costs do not compare.`);
    if (JSON.stringify(scenario.variation) !== JSON.stringify(first.variation)) notes.push(`${letter} varies otherwise than A: the days share less of their luck.`);
  });
  if (rehearsals === 1) notes.push("One day each: without other days nothing can be said about how sure a difference is.");
  return notes;
}
