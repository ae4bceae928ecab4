/** One question and its answer: the pure work of a rehearsal, in plain data that goes to a thread and back. */
import { EndlessDay } from "../sim/harvest/day.ts";
import { LOG_SCHEMA, writeLog } from "../sim/harvest/log.ts";
import type { DayStart } from "../sim/harvest/start.ts";
import type { AppliedDefault, Scenario } from "../sim/scenario/types.ts";
import { rehearseDays, tellOf, type SomeDays } from "../sim/study/rehearsal.ts";
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
  /** `{"id", "findings", "log"}` */ readonly findings: Document;
  /** the rehearsal with the median finish, as JSON lines */ readonly log: Document;
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

/** Sums the days up and writes both documents out, so that the server's own thread only hands bytes on. */
export function tell({ job, parts }: Rehearsed): Answer | NoAnswer {
  const days: SomeDays[] = [];
  for (const part of parts) {
    if ("because" in part) return part;
    days.push(part);
  }
  return unlessEndless(() => {
    const { id, scenario, seed } = job;
    const { findings, day, rehearsal } = tellOf(scenario, job, days);
    const header = { schema: LOG_SCHEMA, scenario: findings.scenario, plan: scenario, seed, engine: findings.engine, rehearsal };
    return {
      findings: document(JSON.stringify({ id, findings, log: `/api/v1/rehearsals/${id}/log` }), FINDINGS_TYPE),
      log: document(writeLog(header, day), LOG_TYPE),
    };
  });
}

function unlessEndless<Told>(work: () => Told): Told | NoAnswer {
  try {
    return work();
  } catch (error) {
    if (error instanceof EndlessDay) return { because: error.message };
    throw error;
  }
}
