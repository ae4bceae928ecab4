/** Weigh tickets from the file to the judgement: read, measured, fitted, turned into a patch, and held against the scenario. */
import { hashOf } from "../../scenario/hash.ts";
import type { Scenario } from "../../scenario/types.ts";
import { ENGINE_VERSION } from "../../version.ts";
import type { Study } from "../work.ts";
import { judge, type Judgement, type JudgeOptions } from "./judge.ts";
import { daysIn } from "./loads.ts";
import type { Answers } from "./mapping.ts";
import { patchOf, type Patch } from "./patch.ts";
import { readTickets, type Ticket, type TicketReading } from "./tickets.ts";
import { weighed, type Weighed } from "./weighed.ts";

export interface WeighedDay extends Weighed {
  readonly engine: string;
  readonly scenario: { readonly name: string; readonly hash: string };
  readonly seed: number;
  /** which of the days was held against the scenario, from 0: that of most loads */ readonly judgedDay: number;
  readonly patch: Patch;
  readonly judgement: Judgement;
}

export interface TicketsOptions extends Answers, JudgeOptions { readonly csv: string }

/** Reads and refuses what cannot go on. @throws RangeError with the open questions, or when there are no tickets */
function readWhole(csv: string, answers: Answers = {}): TicketReading {
  const reading = readTickets(csv, answers);
  if (reading.questions.length > 0) throw new RangeError(reading.questions.map(({ sentence }) => sentence).join("\n"));
  if (reading.tickets.length === 0) {
    const [first] = reading.refused;
    throw new RangeError(`No row of the file is a ticket${first ? `; the first, row ${first.row}: ${first.because}` : ": there is none under the heading."}`);
  }
  return reading;
}

/** The whole study. @throws RangeError in the user's words, EndlessDay */
export function* tickets(scenario: Scenario, { csv, rehearsals, seed, ...answers }: TicketsOptions): Study<WeighedDay> {
  const reading = readWhole(csv, answers);
  const days = daysIn(reading.tickets);
  const judgedDay = days.reduce((best, day, i) => (day.length > days[best]!.length ? i : best), 0);
  const patch = patchOf(scenario, reading.tickets);
  const judgement = yield* judge(scenario, fromItsMidnight(days[judgedDay]!), { ...(rehearsals && { rehearsals }), ...(seed !== undefined && { seed }) });
  return { engine: ENGINE_VERSION, scenario: { name: scenario.name, hash: hashOf(scenario) }, seed: seed ?? scenario.seed, ...weighed(reading, scenario.shift.breaks), judgedDay, patch, judgement };
}

/** A day's tickets in s after the midnight before its first. */
function fromItsMidnight(day: readonly Ticket[]): Ticket[] {
  const before = Math.floor(day[0]!.at / 86_400) * 86_400;
  return day.map((ticket) => ({ ...ticket, at: ticket.at - before, out: ticket.out === null ? null : ticket.out - before }));
}
