/** One question and its answer: the pure work of a rehearsal, in plain data that goes to a thread and back. */
import { EndlessDay } from "../sim/harvest/day.ts";
import { LOG_SCHEMA, writeLog } from "../sim/harvest/log.ts";
import type { DayStart } from "../sim/harvest/start.ts";
import type { AppliedDefault, Scenario } from "../sim/scenario/types.ts";
import { rehearse } from "../sim/study/rehearsal.ts";
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

/** Rehearses and writes both documents out, so that the server's own thread only hands bytes on. */
export function perform({ id, scenario, defaults, rehearsals, seed, start }: Job): Answer | NoAnswer {
  try {
    const { findings, day, rehearsal } = rehearse(scenario, { rehearsals, seed, defaults, ...(start && { start }) });
    const header = { schema: LOG_SCHEMA, scenario: findings.scenario, plan: scenario, seed, engine: findings.engine, rehearsal };
    return {
      findings: document(JSON.stringify({ id, findings, log: `/api/v1/rehearsals/${id}/log` }), FINDINGS_TYPE),
      log: document(writeLog(header, day), LOG_TYPE),
    };
  } catch (error) {
    if (error instanceof EndlessDay) return { because: error.message };
    throw error;
  }
}
