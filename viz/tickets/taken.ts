/** The tickets that the reader took in, how they are read, and what they tell. Kept for as long as the page is open, and never in the address. */
import { batch, computed, signal } from "@preact/signals";
import type { Scenario } from "../../sim/scenario/types.ts";
import { MOST_TEXT, readSheet } from "../../sim/study/tickets/csv.ts";
import type { ColumnName } from "../../sim/study/tickets/headings.ts";
import type { Answers, Mapping } from "../../sim/study/tickets/mapping.ts";
import { patchOf, type Patch } from "../../sim/study/tickets/patch.ts";
import { readTickets, type TicketReading } from "../../sim/study/tickets/tickets.ts";
import { weighed, type Weighed } from "../../sim/study/tickets/weighed.ts";
import { bytesOf } from "../page/chosen.ts";
import { ticketWords } from "../words/tickets.ts";
import { textOf, type Encoding } from "./bytes.ts";

export interface TicketFile {
  readonly name: string;
  readonly text: string;
  readonly encoding: Encoding;
  /** the worked example whose day it is; null for the reader's own */ readonly of: string | null;
}

export const file = signal<TicketFile | null>(null);
export const answers = signal<Answers>({});
/** Why the last file was not taken, in words. */
export const trouble = signal<string | null>(null);
/** What is being typed or pasted. */
export const pasted = signal("");
/** Which of the days is shown, from 0; null: that of most loads. */
export const dayShown = signal<number | null>(null);

export const sheetOf = computed(() => (file.value ? readSheet(file.value.text) : null));
export const reading = computed<TicketReading | null>(() => (file.value ? readTickets(file.value.text, answers.value) : null));

/** Takes another file in the place of the one there is; one that cannot be read changes nothing. */
export function take(next: TicketFile): void {
  const { take: words } = ticketWords;
  try {
    if (next.text.trim() === "") throw new RangeError(words.empty);
    readSheet(next.text);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    trouble.value = error.message;
    return;
  }
  batch(() => {
    trouble.value = null;
    file.value = next;
    answers.value = {};
    dayShown.value = null;
  });
}

/** Takes a file that was chosen or dropped. */
export async function takeFile(given: File): Promise<void> {
  // Two bytes a character at the most.
  const bytes = await bytesOf(given, 2 * MOST_TEXT);
  if ("wrong" in bytes) return void (trouble.value = bytes.wrong);
  const read = textOf(bytes);
  if (read === null) trouble.value = ticketWords.take.noText;
  else take({ name: given.name, of: null, ...read });
}

/** The answers with a column read as something else, or as nothing: what it was read as before is then read from no column. */
export function withColumn(said: Answers, { columns, heading }: Pick<Mapping, "columns" | "heading">, place: number, name: ColumnName | null): Answers {
  const before = (Object.keys(columns) as ColumnName[]).filter((each) => columns[each] === place && each !== name);
  const head = heading[place]!;
  const isOnly = heading.filter((each) => each.toLowerCase() === head.toLowerCase()).length === 1;
  return {
    ...said,
    columns: { ...said.columns, ...Object.fromEntries(before.map((each) => [each, ""])), ...(name === null ? {} : { [name]: isOnly ? head : `column ${place + 1}` }) },
  };
}

/** What the tickets tell by themselves and of a plan. */
export interface Worked { readonly reading: TicketReading; readonly scenario: Scenario | null; readonly weighed: Weighed; readonly patch: Patch | null }
export const worked = signal<Worked | null>(null);

/** Works it out once the page has shown how the file was read: fitting shapes takes a moment. Gives what calls it off. */
export function workOut(read: TicketReading, scenario: Scenario | null): () => void {
  if (worked.value?.reading === read && worked.value.scenario === scenario) return () => {};
  const timer = setTimeout(() => {
    worked.value = { reading: read, scenario, weighed: weighed(read, scenario?.shift.breaks ?? []), patch: scenario && patchOf(scenario, read.tickets) };
  });
  return () => clearTimeout(timer);
}
