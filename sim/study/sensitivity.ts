/**
 * Which of the planner's own guesses matter: each taken from its low to its high end alone, on the same days, and all together by a screening
 * design. This is a third kind of uncertainty, beside the luck of the day and the scatter of the published relation; it stands in a table of its own.
 */
import { mean } from "simple-statistics";
import { EndlessDay } from "../harvest/day.ts";
import { Streams } from "../kernel/random.ts";
import { hashOf } from "../scenario/hash.ts";
import type { Scenario } from "../scenario/types.ts";
import { ENGINE_VERSION } from "../version.ts";
import { EFFECTS, type EffectName } from "./effectnames.ts";
import { effectsOf, figureFor, NOTICED, type Effects } from "./effects.ts";
import { costFigure, figureOf, isWhole } from "./figures.ts";
import { guessesOf, type Guess, type Ranges } from "./guesses.ts";
import { screened, walksOf, type Screened } from "./morris.ts";
import { checkedRehearsals, isDeterministic } from "./rehearsal.ts";
import { Roster } from "./roster.ts";
import type { Study } from "./work.ts";

export interface SensitivityRow extends Omit<Guess, "apply"> {
  /** from the low to the high end, all else as it is; null when a crew never gets done at one end */ readonly swing: Effects | null;
  /** by the screening design, all guesses moving; null when some plan of it has no end */ readonly screened: Readonly<Record<EffectName, Screened>> | null;
  /** the figure that it moves most, in times of what is noticed */ readonly most: EffectName | null;
  /** null where a crew never gets done at one end: nothing matters more */ readonly importance: number | null;
  /** its effect hangs on the other guesses, or is no straight line */ readonly hangsTogether: boolean;
}

export interface Sensitivity {
  readonly engine: string;
  readonly scenario: { readonly name: string; readonly hash: string };
  readonly seed: number;
  readonly rehearsals: number;
  readonly cost: "costPerTonne" | "costPerTonneFed";
  /** the guess that matters most first */ readonly rows: readonly SensitivityRow[];
  /** what to measure before harvest, the most worthwhile first */ readonly measure: readonly { readonly id: string; readonly what: string; readonly how: string }[];
  readonly inWords: string;
}

export interface SensitivityOptions {
  /** days at each end */ readonly rehearsals?: number;
  readonly seed?: number;
  /** the planner's own ranges, by the id of the guess */ readonly ranges?: Ranges;
  /** walks of the screening design; 0 leaves it out */ readonly walks?: number;
}

/** Days at each end, and in each run of the screening, when nobody says how many. */
const USUAL_DAYS = 30;
const SCREENING_DAYS = 5;
const USUAL_WALKS = 6;
const CONFIDENCE = 0.95;
/** Share of the effect that its deviation must be, to say that guesses hang together (assumption of this project). */
const HANGS = 0.5;
/** Things worth the trouble of measuring that are told. */
const MOST_TOLD = 5;

/** @throws RangeError in the user's words, EndlessDay when the plan itself has no end */
export function* sensitivity(scenario: Scenario, options: SensitivityOptions = {}): Study<Sensitivity> {
  const still = isDeterministic(scenario);
  const rehearsals = checkedRehearsals(options.rehearsals ?? (still ? 1 : USUAL_DAYS));
  const seed = options.seed ?? scenario.seed;
  const walkCount = options.walks ?? USUAL_WALKS;
  if (!Number.isInteger(walkCount) || walkCount < 0) throw new RangeError(`Walks of the screening are a whole number of 0 or more, not ${walkCount}.`);
  const guesses = guessesOf(scenario, options.ranges);

  const roster = new Roster(seed);
  const base = roster.add(scenario);
  const ends = guesses.map(({ apply, low, high }) => [roster.add(apply(scenario, low)), roster.add(apply(scenario, high))] as const);
  const walks = walksOf(guesses.length, walkCount, new Streams(seed, 0).stream("screening"));
  const at = (point: readonly number[]) => guesses.reduce((plan, { apply, low, high }, i) => apply(plan, low + point[i]! * (high - low)), scenario);
  const expected = (1 + 2 * guesses.length) * rehearsals + walkCount * (guesses.length + 1) * Math.min(rehearsals, SCREENING_DAYS);

  yield* roster.bringTo(rehearsals, [base, ...ends.flat()], expected);
  const endless = roster.whyEndless(base);
  if (endless !== null) throw new EndlessDay(endless);
  const runs = walks.map(({ points }) => points.map((point) => roster.add(at(point))));
  yield* roster.bringTo(Math.min(rehearsals, SCREENING_DAYS), runs.flat(), expected);

  const plan = (number: number) => ({ scenario: roster.scenarios[number]!, days: roster.daysOf(number) });
  const hasEnd = (number: number) => roster.whyEndless(number) === null;
  const cost = costFigure([base, ...ends.flat()].filter(hasEnd).map(plan));
  const confidence = 1 - (1 - CONFIDENCE) / Math.max(1, guesses.length);
  const screening = runs.length > 0 && runs.flat().every(hasEnd) ? screeningOf(walks, runs.map((walk) => walk.map((number) => ({ ...plan(number), days: roster.daysOf(number).slice(0, SCREENING_DAYS) }))), guesses.length, cost) : null;
  const now = (effect: EffectName) => mean(figureOf(scenario, roster.daysOf(base), figureFor(effect, cost)));

  const rows = guesses.map(({ apply: _apply, ...guess }, i): SensitivityRow => {
    const [low, high] = ends[i]!;
    const swing = hasEnd(low) && hasEnd(high) ? effectsOf(plan(low), plan(high), cost, confidence) : null;
    const noticed = (effect: EffectName, by: number) => Math.abs(by) / (effect === "waiting" || effect === "finish" ? NOTICED[effect] : NOTICED[effect] * Math.abs(now(effect)));
    const moved = swing === null ? [] : EFFECTS.filter((effect) => swing.by[effect].sure).map((effect) => ({ effect, times: noticed(effect, swing.by[effect].mean) }));
    const most = moved.reduce<(typeof moved)[number] | null>((a, b) => (a === null || b.times > a.times ? b : a), null);
    const seen = screening?.[i] ?? null;
    return {
      ...guess, swing, screened: seen, most: most?.effect ?? null, importance: swing === null ? null : most?.times ?? 0,
      hangsTogether: seen !== null && EFFECTS.some((effect) => noticed(effect, seen[effect].effect) >= 1 && seen[effect].sd > HANGS * seen[effect].effect),
    };
  }).sort((a, b) => weight(b) - weight(a) || guesses.findIndex(({ id }) => id === a.id) - guesses.findIndex(({ id }) => id === b.id));

  const measure = rows.filter((row) => weight(row) >= 1).slice(0, MOST_TOLD).map(({ id, what, measure: how }) => ({ id, what, how }));
  return {
    engine: ENGINE_VERSION, scenario: { name: scenario.name, hash: hashOf(scenario) }, seed, rehearsals, cost, rows, measure,
    inWords: measure.length === 0
      ? "None of the guesses moves the day noticeably within its range."
      : `What you are least sure of and what moves the day most: ${measure.map(({ what }) => what.toLowerCase()).join(", ")}. ${measure[0]!.how}`,
  };
}

const weight = ({ importance }: SensitivityRow): number => importance ?? Number.MAX_VALUE;

/** By guess and figure; null where some run does not give the figure. */
function screeningOf(walks: ReturnType<typeof walksOf>, runs: readonly (readonly { readonly scenario: Scenario; readonly days: ReturnType<Roster["daysOf"]> }[])[], guesses: number, cost: Sensitivity["cost"]) {
  const results = Object.fromEntries(EFFECTS.map((effect) => [effect, runs.map((walk) => walk.map(({ scenario, days }) => mean(figureOf(scenario, days, figureFor(effect, cost)))))])) as Record<EffectName, number[][]>;
  if (!EFFECTS.every((effect) => isWhole(results[effect].flat()))) return null;
  return Array.from({ length: guesses }, (_, i) => Object.fromEntries(EFFECTS.map((effect) => [effect, screened(walks, results[effect], i)])) as Record<EffectName, Screened>);
}
