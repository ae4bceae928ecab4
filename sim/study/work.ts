/**
 * How a study gets its days. A study is a generator: it yields steps, each a list of batches of days it wants, and is given what those
 * days were, in the order of its list. So it hangs on nothing but its inputs: where and in which order the days are rehearsed, here or on
 * any number of threads, does not show in its result. A study whose days hang on one another rehearses them itself, a step at a time. Between two steps, and between two days, it can be stopped.
 */
import { factsOf, type DayFacts } from "../findings/facts.ts";
import { EndlessDay, rehearseDay } from "../harvest/day.ts";
import type { DayStart } from "../harvest/start.ts";
import type { Scenario } from "../scenario/types.ts";
import { weighingsOf, type Weighing } from "./tickets/loads.ts";

/** So many days of one plan: rehearsals `from` up to, and without, `to`. */
export interface Batch {
  /** the plan's number within the study */ readonly plan: number;
  readonly scenario: Scenario;
  readonly seed: number;
  readonly from: number;
  readonly to: number;
  /** where each day starts from; the morning when left out */ readonly start?: DayStart;
  /** every load over the scale is wanted too */ readonly weighings?: true;
}

/** Days in one batch, so that progress shows and threads can share. */
const BATCH = 20;

/** Rehearsals `from` up to `to` of one plan in batches. */
export function batchesOf(plan: number, scenario: Scenario, seed: number, from: number, to: number): Batch[] {
  const batches: Batch[] = [];
  for (let at = from; at < to; at += BATCH) batches.push({ plan, scenario, seed, from: at, to: Math.min(to, at + BATCH) });
  return batches;
}

/** A day of a study; `weighings` where the batch wants them. */
export interface StudyDay extends DayFacts { readonly weighings?: readonly Weighing[] }

/** A plan whose crew never gets done, in the engine's words. */
export interface Endless { readonly endless: string }

/** What a batch came to: a day each, in the order of the rehearsals. */
export type Days = readonly StudyDay[] | Endless;

/** What a study wants next. */
export interface Step<SoFar> {
  readonly batches: readonly Batch[];
  /** days in the whole study, as far as it can tell now */ readonly expected: number;
  /** what could be shown already */ readonly soFar?: SoFar;
  /** days that the study has rehearsed itself since the step before: those of a campaign, where each needs what the one before left */ readonly worked?: number;
}

export type Study<Result, SoFar = never> = Generator<Step<SoFar>, Result, readonly Days[]>;

export interface Progress<SoFar> {
  readonly done: number;
  readonly expected: number;
  readonly soFar?: SoFar;
}

/** Who looks on while a study is carried out. */
export interface Watch<SoFar> {
  /** told after each batch that was rehearsed */ readonly onProgress?: (progress: Progress<SoFar>) => void;
  /** asked before each day */ readonly shouldStop?: () => boolean;
}

/** Thrown out of a study that was told to stop. */
export class Stopped extends Error {}

const stopped = () => new Stopped("The study was stopped before it was done.");

/** Rehearses one batch. @throws Stopped when told so. */
export function rehearseBatch({ scenario, seed, from, to, start, weighings }: Batch, shouldStop: () => boolean = () => false): Days {
  const days: StudyDay[] = [];
  try {
    for (let rehearsal = from; rehearsal < to; rehearsal++) {
      if (shouldStop()) throw stopped();
      const day = rehearseDay(scenario, { seed, rehearsal, ...(start && { start }) });
      days.push({ ...factsOf(scenario, day), ...(weighings && { weighings: weighingsOf(day) }) });
    }
  } catch (error) {
    if (error instanceof EndlessDay) return { endless: error.message };
    throw error;
  }
  return days;
}

/** Carries a study out here and now. @throws Stopped when told so, and whatever the study itself throws. */
export function carryOut<Result, SoFar>(study: Study<Result, SoFar>, { onProgress, shouldStop }: Watch<SoFar> = {}): Result {
  let done = 0;
  let next = study.next();
  while (!next.done) {
    if (shouldStop?.()) throw stopped();
    const { batches, expected, soFar, worked = 0 } = next.value;
    const shown = soFar === undefined ? {} : { soFar };
    done += worked;
    onProgress?.({ done, expected, ...shown });
    const answers = batches.map((batch) => {
      const days = rehearseBatch(batch, shouldStop);
      done += batch.to - batch.from;
      onProgress?.({ done, expected, ...shown });
      return days;
    });
    next = study.next(answers);
  }
  return next.value;
}

/** Somebody who rehearses batches: threads, or another machine. Told to stop, it rejects. */
export interface Hands {
  /** days worth handing over at once */ readonly most: number;
  rehearse(batch: Batch): Promise<Days>;
  /** lets other things happen between steps that a study did itself; hands on threads of their own need none */ pause?(): Promise<void>;
}

/** Carries a study out on other hands. The result is the same as here, whoever is done first. @throws Stopped when told so. */
export async function carryOutOn<Result, SoFar>(hands: Hands, study: Study<Result, SoFar>, { onProgress, shouldStop }: Watch<SoFar> = {}): Promise<Result> {
  let done = 0;
  let next = study.next();
  while (!next.done) {
    if (shouldStop?.()) throw stopped();
    const { batches, expected, soFar, worked = 0 } = next.value;
    const shown = soFar === undefined ? {} : { soFar };
    done += worked;
    onProgress?.({ done, expected, ...shown });
    if (batches.length === 0) await hands.pause?.();
    const answers = await Promise.all(batches.map(async (batch) => joined(await Promise.all(cut(batch, hands.most).map(async (piece) => {
      const days = await hands.rehearse(piece);
      if (shouldStop?.()) throw stopped();
      done += piece.to - piece.from;
      onProgress?.({ done, expected, ...shown });
      return days;
    })))));
    next = study.next(answers);
  }
  return next.value;
}

/** A batch in pieces of at most so many days. */
function cut(batch: Batch, most: number): Batch[] {
  const pieces: Batch[] = [];
  for (let from = batch.from; from < batch.to; from += most) pieces.push({ ...batch, from, to: Math.min(batch.to, from + most) });
  return pieces;
}

/** The pieces' days in their order; if one of them does not end, the first such. */
function joined(pieces: readonly Days[]): Days {
  return pieces.find((days) => "endless" in days) ?? (pieces as readonly (readonly StudyDay[])[]).flat();
}
