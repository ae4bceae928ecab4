/** The other plans of the side by side: what each rehearsal says on the luck of the plan shown, and its day. Asked again only when choice or luck is another. */
import { computed, effect, signal } from "@preact/signals";
import type { Findings } from "../../sim/findings/types.ts";
import * as server from "../ask.ts";
import type { Document } from "../document.ts";
import { readRehearsed, type Rehearsed } from "../rehearsed.ts";
import { AS_OPENED, beside, changed, example, exampleId, examples, findings, reason, sheet } from "../state.ts";

export interface Run {
  /** as chosen: an id, or `AS_OPENED` */ readonly id: string;
  readonly document: Document;
  readonly findings: Findings;
  readonly story: Rehearsed;
}

/** Runs by choice and luck; null while one is on its way, a sentence where there is none. */
const known = signal<Readonly<Record<string, Run | string | null>>>({});

/** What the sheet opens with: the plan as opened once it has been changed, else another example. */
export function firstChoice(): string {
  return changed.value ? AS_OPENED : examples.value.find(({ id }) => id !== exampleId.value)?.id ?? AS_OPENED;
}

const keyOf = (id: string, seed: number): string => JSON.stringify([id, id === AS_OPENED ? exampleId.value : null, seed]);

/** The chosen ones in their order, each as far as it is known. */
export const runs = computed<readonly { readonly id: string; readonly run: Run | string | null }[]>(() => {
  const seed = findings.value?.seed;
  return seed === undefined ? [] : beside.value.map((id) => ({ id, run: known.value[keyOf(id, seed)] ?? null }));
});

effect(() => {
  const seed = findings.value?.seed;
  const opened = example.value;
  if (sheet.value !== "beside" || seed === undefined || opened === null) return;
  for (const id of beside.value) {
    const key = keyOf(id, seed);
    if (Object.hasOwn(known.peek(), key)) continue;
    known.value = { ...known.peek(), [key]: null };
    rehearse(id, id === AS_OPENED ? opened : null, seed).then(
      (run) => { known.value = { ...known.peek(), [key]: run }; },
      (error: unknown) => { known.value = { ...known.peek(), [key]: reason(error) }; },
    );
  }
});

/** A run whose asking failed is forgotten, so that it is asked again. */
export function askAgain(id: string): void {
  const seed = findings.value?.seed;
  if (seed === undefined) return;
  const { [keyOf(id, seed)]: _, ...others } = known.value;
  known.value = others;
  beside.value = [...beside.value];
}

async function rehearse(id: string, opened: Document | null, seed: number): Promise<Run> {
  const never = new AbortController().signal;
  const document = opened ?? await server.example(id);
  const answer = await server.rehearse(document, never, seed);
  return { id, document, findings: answer.findings, story: readRehearsed(await server.log(answer.log, never)) };
}
