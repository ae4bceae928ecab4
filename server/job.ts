/** One question and its answer: the pure work of a rehearsal, in plain data that goes to a thread and back. */
import { EndlessDay, rehearseDay } from "../sim/harvest/day.ts";
import { LOG_SCHEMA, writeLog } from "../sim/harvest/log.ts";
import type { DayStart } from "../sim/harvest/start.ts";
import { hashOf } from "../sim/scenario/hash.ts";
import type { AppliedDefault, Scenario } from "../sim/scenario/types.ts";
import { rehearseDays, tellOf, type SomeDays } from "../sim/study/rehearsal.ts";
import { ENGINE_VERSION } from "../sim/version.ts";
import { document } from "./documents.ts";
import type { Document } from "./documents.ts";

export const FINDINGS_TYPE = "application/json";
export const LOG_TYPE = "application/x-ndjson; charset=utf-8";

export interface Job {
  readonly id: string;
  readonly scenario: Scenario;
  readonly defaults: readonly AppliedDefault[];
  readonly rehearsals: number;
  readonly seed: number;
  /** where the rest of the day starts from; absent for a whole day */ readonly start?: DayStart;
}

export interface Answer {
  /** `{"id", "findings", "rehearsal", "log"}` */ readonly findings: Document;
  /** which of the days its log is of: the one with the median finish */ readonly rehearsal: number;
}

/** One day of a job that has been answered, to be told load by load. */
export interface ShownDay {
  readonly job: Job;
  readonly rehearsal: number;
}

/** A sound question that has no answer, in the engine's words. Plain data: an error would lose its class on the way out of a thread. */
export interface NoAnswer { readonly because: string }

/** Some of a job's days: from one rehearsal up to, and without, another. */
export interface Part {
  readonly job: Job;
  readonly from: number;
  readonly to: number;
}

/** A job whose days have all been rehearsed. */
export interface Rehearsed {
  readonly job: Job;
  /** in the order of the days */ readonly parts: readonly (SomeDays | NoAnswer)[];
}

/** One job, start to end. */
export function perform(job: Job): Answer | NoAnswer {
  return tell({ job, parts: [rehearsePart({ job, from: 0, to: job.rehearsals })] });
}

/** Rehearses some of the days; the rest may be rehearsed elsewhere meanwhile. */
export function rehearsePart({ job: { scenario, ...asked }, from, to }: Part): SomeDays | NoAnswer {
  return unlessEndless(() => rehearseDays(scenario, asked, from, to));
}

/** Sums the days up and writes them out, so that the server's own thread only hands bytes on. */
export function tell({ job, parts }: Rehearsed): Answer | NoAnswer {
  const days: SomeDays[] = [];
  for (const part of parts) {
    if ("because" in part) return part;
    days.push(part);
  }
  return unlessEndless(() => {
    const { id, scenario } = job;
    const { findings, rehearsal } = tellOf(scenario, job, days);
    return { findings: document(JSON.stringify({ id, findings, rehearsal, log: `/api/v1/rehearsals/${id}/log` }), FINDINGS_TYPE), rehearsal };
  });
}

/**
 * The log of a day, as JSON lines. Four fifths of what a day leaves behind would be its log, and few of the days that are asked for are looked at:
 * so it is rehearsed again for whoever wants to see it, and comes out the same.
 */
export function logOf({ job: { scenario, seed, start }, rehearsal }: ShownDay): Document {
  const day = rehearseDay(scenario, { seed, rehearsal, states: true, ...(start && { start }) });
  const header = { schema: LOG_SCHEMA, scenario: { name: scenario.name, hash: hashOf(scenario) }, plan: scenario, seed, engine: ENGINE_VERSION, rehearsal };
  return document(writeLog(header, day), LOG_TYPE);
}

function unlessEndless<Told>(work: () => Told): Told | NoAnswer {
  try {
    return work();
  } catch (error) {
    if (error instanceof EndlessDay) return { because: error.message };
    throw error;
  }
}
