/** The second plan of the side by side: which, and what its rehearsal says on the luck of the plan shown. */
import { effect, signal } from "@preact/signals";
import type { Findings } from "../../sim/findings/types.ts";
import * as server from "../ask.ts";
import type { Document } from "../document.ts";
import { latest } from "../latest.ts";
import { AS_OPENED, beside, edits, exampleId, examples, findings, original, reason } from "../state.ts";

export interface Other {
  /** what was asked: the choice, and the seed of the luck */ readonly key: string;
  readonly findings: Findings;
}

export const other = signal<Other | null>(null);
/** Why there is no second answer, in words. */
export const otherTrouble = signal<string | null>(null);

/** What the section opens with: the plan as opened once it has been changed, else another example. */
export function firstChoice(): string {
  return Object.keys(edits.value).length > 0 ? AS_OPENED : examples.value.find(({ id }) => id !== exampleId.value)?.id ?? AS_OPENED;
}

interface Question { readonly key: string; readonly id: string; readonly document: Document | null; readonly seed: number }

const answers = latest<Question>(async ({ key, id, document, seed }, hangUp) => {
  try {
    const answer = await server.rehearse(document ?? await server.example(id), hangUp, seed);
    other.value = { key, findings: answer.findings };
    otherTrouble.value = null;
  } catch (error) {
    if (!hangUp.aborted) otherTrouble.value = reason(error);
  }
}, 400);

/** Asked again only when the choice or the luck is another: turning the plan shown costs no second question. */
let asked: string | null = null;
effect(() => {
  const id = beside.value[0];
  const seed = findings.value?.seed;
  const opened = original.value;
  if (id === undefined || seed === undefined || opened === null) {
    asked = null;
    return;
  }
  const key = keyOf(id, exampleId.value, seed);
  if (key === asked) return;
  asked = key;
  answers.ask({ key, id, document: id === AS_OPENED ? opened : null, seed });
});

/** The second answer, when it is the one that was chosen. */
export function chosenOther(): Findings | null {
  const seed = findings.value?.seed;
  const id = beside.value[0];
  if (id === undefined || seed === undefined) return null;
  return other.value?.key === keyOf(id, exampleId.value, seed) ? other.value.findings : null;
}

function keyOf(id: string, example: string | null, seed: number): string {
  return JSON.stringify([id, id === AS_OPENED ? example : null, seed]);
}
