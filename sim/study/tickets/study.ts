/** Weigh tickets from the file to the judgement: read, measured, fitted, turned into a patch, and held against the scenario. */
import { hashOf } from "../../scenario/hash.ts";
import type { Scenario } from "../../scenario/types.ts";
import { ENGINE_VERSION } from "../../version.ts";
import type { Study } from "../work.ts";
import { fitShapes, type FittedSample } from "./fit.ts";
import { judge, type Judgement, type JudgeOptions } from "./judge.ts";
import { daysIn, gapsOf, measureDay, partsBy, roundsOf, staysOf, type DayOfLoads, type Part, type Pause } from "./loads.ts";
import type { Answers } from "./mapping.ts";
import { fullLoads, patchOf, type Patch } from "./patch.ts";
import { readTickets, type Ticket, type TicketReading } from "./tickets.ts";

/** What tickets say by themselves. */
export interface Weighed {
  readonly reading: Omit<TicketReading, "tickets"> & { /** how many */ readonly tickets: number };
  /** day by day; cut where nothing was weighed for five hours */ readonly days: readonly DayOfLoads[];
  readonly owners: readonly Part[];
  readonly fields: readonly Part[];
  readonly trucks: readonly Part[];
  /** shapes: t of full loads, min of the others; null where there is too little to fit */ readonly shapes: Readonly<Record<"load" | "cycle" | "stay" | "between", FittedSample | null>>;
}

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
export function readWhole(csv: string, answers: Answers = {}): TicketReading {
  const reading = readTickets(csv, answers);
  if (reading.questions.length > 0) throw new RangeError(reading.questions.map(({ sentence }) => sentence).join("\n"));
  if (reading.tickets.length === 0) {
    const [first] = reading.refused;
    throw new RangeError(`No row of the file is a ticket${first ? `; the first, row ${first.row}: ${first.because}` : ": there is none under the heading."}`);
  }
  return reading;
}

/** What a reading says by itself; `breaks` are those of the shift, s after midnight, and count for no round and no gap. */
export function weighed({ tickets, ...reading }: TicketReading, breaks: readonly Pause[] = []): Weighed {
  const days = daysIn(tickets);
  const fit = (values: readonly number[], per: number) => fitShapes(values.filter((value) => value > 0).map((value) => value / per));
  return {
    reading: { ...reading, tickets: tickets.length },
    days: days.map((day) => measureDay(day, breaks)),
    owners: partsBy(tickets, "owner"), fields: partsBy(tickets, "field"), trucks: partsBy(tickets, "truck"),
    shapes: {
      load: fit(fullLoads(tickets), 1000), cycle: fit(days.flatMap((day) => roundsOf(day, breaks)), 60), stay: fit(staysOf(tickets, breaks), 60),
      between: fit(days.flatMap((day) => gapsOf(day, breaks).map(({ worked }) => worked)), 60),
    },
  };
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
