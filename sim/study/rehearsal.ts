/** Many rehearsals of one scenario: the days, what they say together, and the one day that is shown. */
import { findingsOf } from "../findings/findings.ts";
import { factsOf, type DayFacts } from "../findings/facts.ts";
import { restFacts, restOf, type RestFacts } from "../findings/rest.ts";
import type { Findings } from "../findings/types.ts";
import { rehearseDay } from "../harvest/day.ts";
import type { Day } from "../harvest/daylog.ts";
import { MORNING, type DayStart } from "../harvest/start.ts";
import { ACTIVITIES, type AppliedDefault, type Scenario } from "../scenario/types.ts";
import { stopCutting, trucksHome } from "./rest.ts";

/** Rehearsals when nobody says how many: one is enough where nothing varies. */
export const USUAL_REHEARSALS = 100;

/** True when every duration is its mean, every load its nominal mass, and nothing breaks down by chance. */
export const isDeterministic = (scenario: Scenario): boolean =>
  ACTIVITIES.every((activity) => scenario.variation[activity] === null || scenario.variation[activity].kind === "fixed");

export const usualRehearsals = (scenario: Scenario): number => (isDeterministic(scenario) ? 1 : USUAL_REHEARSALS);

/** Checks a number of rehearsals. @throws RangeError in the user's words */
export function checkedRehearsals(rehearsals: number): number {
  if (!Number.isInteger(rehearsals) || rehearsals < 1) throw new RangeError(`Rehearsals are a whole number of 1 or more, not ${rehearsals}.`);
  return rehearsals;
}

/** What is rehearsed, and from where. */
export interface DaysAsked {
  readonly seed: number;
  /** where each day starts from; the morning when left out */ readonly start?: DayStart;
  /** true: the day that is shown keeps its state changes */ readonly states?: boolean;
  /** told after each day */ readonly onDay?: () => void;
}

/** Some of the days of a rehearsal, in their order: what is told of them all needs no more of each. Plain data: they may come from another thread. */
export interface SomeDays {
  readonly facts: readonly DayFacts[];
  /** only where the days start from a state */ readonly rests: readonly RestFacts[];
  /** the day itself, where one was all that was asked for: it is the one that is shown */ readonly only?: Day;
}

export interface RehearsalOptions extends Omit<DaysAsked, "seed" | "states"> {
  readonly rehearsals?: number;
  /** instead of the scenario's own */ readonly seed?: number;
  /** what was filled in when the scenario was read, for the findings to list */ readonly defaults?: readonly AppliedDefault[];
}

export interface Rehearsal {
  readonly findings: Findings;
  /** the day with the median finish */ readonly day: Day;
  /** which of the rehearsals that day is, from 0 */ readonly rehearsal: number;
}

/**
 * Rehearses a scenario so many times; the day that is shown keeps its state changes.
 * @throws RangeError in the user's words when the number is not a whole one above 0, or a day does not end
 */
export function rehearse(scenario: Scenario, options: RehearsalOptions = {}): Rehearsal {
  const rehearsals = checkedRehearsals(options.rehearsals ?? usualRehearsals(scenario));
  const asked = { ...options, seed: options.seed ?? scenario.seed, states: true };
  return tellOf(scenario, asked, [rehearseDays(scenario, asked, 0, rehearsals)]);
}

/** Rehearses the days `from` up to, and without, `to`. @throws EndlessDay when one of them does not end */
export function rehearseDays(scenario: Scenario, { seed, start = MORNING, states = false, onDay }: DaysAsked, from: number, to: number): SomeDays {
  const facts: DayFacts[] = [];
  const rests: RestFacts[] = [];
  const isAlone = to - from === 1;
  let day: Day | undefined;
  for (let rehearsal = from; rehearsal < to; rehearsal++) {
    day = rehearseDay(scenario, { seed, rehearsal, start, states: states && isAlone });
    facts.push(factsOf(scenario, day));
    if (start !== MORNING) rests.push(restFacts(day));
    onDay?.();
  }
  return { facts, rests, ...(isAlone ? { only: day! } : {}) };
}

/** What all the days of a rehearsal say together; `parts` are all of them, in their order, wherever each was rehearsed. */
export function tellOf(scenario: Scenario, { seed, start = MORNING, states = false, defaults = [] }: DaysAsked & Pick<RehearsalOptions, "defaults">, parts: readonly SomeDays[]): Rehearsal {
  const days = parts.flatMap(({ facts }) => facts);
  const rests = parts.flatMap((part) => part.rests);
  const rehearsal = medianFinish(days);
  const day = (parts.length === 1 ? parts[0]!.only : undefined) ?? rehearseDay(scenario, { seed, rehearsal, states, start });
  const all = findingsOf({ scenario, seed, days, machines: day.machines, defaults, shown: day });
  const asked = { scenario, start, seed };
  const findings = start === MORNING ? all : { ...all, rest: restOf(scenario, start, rests, { stopCutting: stopCutting(asked, rests), trucks: trucksHome(asked, days.length) }) };
  return { findings, day, rehearsal };
}

/** The rehearsal that finishes in the middle of all; with an even number the earlier of the two, with equal finishes the first. */
function medianFinish(days: readonly DayFacts[]): number {
  const order = days.map((_, i) => i).sort((a, b) => days[a]!.measures.finishedAt - days[b]!.measures.finishedAt || a - b);
  return order[Math.floor((order.length - 1) / 2)]!;
}
