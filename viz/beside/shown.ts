/** The plans on the sheet: the reader's own first, then those set beside it, and what each rehearsal says on the luck of the first. */
import { computed, effect, signal } from "@preact/signals";
import type { Findings } from "../../sim/findings/types.ts";
import * as server from "../ask.ts";
import type { Document } from "../document.ts";
import { readRehearsed, type Rehearsed } from "../rehearsed.ts";
import { AS_OPENED, beside, changed, example, exampleId, examples, findings, kept, plan, reason, sheet } from "../state.ts";
import { words } from "../words/beside.ts";
import { pairOf, storageOf, storedAs, withStorageOf } from "./pairs.ts";

/** One plan on the sheet. */
export interface Shown {
  /** A for the reader's own, B, C, D, as the comparison calls them */ readonly letter: string;
  /** as chosen: an id, `AS_OPENED`, or the plan stored as in another; null for the reader's own */ readonly id: string | null;
  readonly name: string;
  /** null while it is fetched */ readonly document: Document | null;
  /** null while it is rehearsed */ readonly run: Run | null;
  /** why it is neither, in words */ readonly trouble: string | null;
}

export interface Run {
  readonly findings: Findings;
  /** the first of the days, which has the same luck in every plan */ readonly story: Rehearsed;
}

/** A plan that is there and rehearsed. */
export type Ready = Shown & { readonly document: Document; readonly run: Run };

const LETTERS = "ABCD";

/** Documents by id and revision, runs by document and seed; a sentence where there is none, null while one is on its way. */
const documents = signal<Readonly<Record<string, Document | string | null>>>({});
const runs = signal<Readonly<Record<string, Run | string | null>>>({});
/** Runs that are kept: those of a few sheets like this. */
const KEPT = 12;

const documentKey = (id: string): string => JSON.stringify([id, kept.value.find((each) => each.id === id)?.revision ?? null]);
const runKey = (document: Document, seed: number): string => JSON.stringify([document, seed]);

/** The example that the plan's own names. */
const pair = computed(() => (exampleId.value === null ? null : pairOf(exampleId.value, examples.value)));

/** Ids of the other plans, the likelier first: the one that is named, those of the reader's own, the examples. */
const others = computed<readonly string[]>(() => [
  ...new Set([...(pair.value === null ? [] : [pair.value]), ...[...kept.value, ...examples.value].map(({ id }) => id)]),
].filter((id) => id !== exampleId.value));

/** What may be set beside the plan: plans, and the plan itself stored as in one of them. */
export const choices = computed<{ readonly plans: readonly string[]; readonly stored: readonly string[] }>(() => ({
  plans: [...(changed.value ? [AS_OPENED] : []), ...others.value], stored: others.value.map(storedAs),
}));

/** What a choice is called. */
export function nameOf(id: string | null): string {
  if (id === null) return typeof plan.value?.name === "string" ? plan.value.name : words.plan;
  if (id === AS_OPENED) return words.asOpened;
  const storage = storageOf(id);
  if (storage !== null) return words.storedAs(nameOf(storage));
  return [...examples.value, ...kept.value].find((each) => each.id === id)?.name ?? id;
}

function documentOf(id: string | null): Document | string | null {
  if (id === null) return plan.value;
  if (id === AS_OPENED) return example.value;
  const storage = storageOf(id);
  if (storage === null) return documents.value[documentKey(id)] ?? null;
  const found = documentOf(storage);
  return typeof found === "string" || found === null || plan.value === null ? found : withStorageOf(plan.value, found);
}

export const shown = computed<readonly Shown[]>(() => {
  const seed = findings.value?.seed;
  return [null, ...beside.value].map((id, i): Shown => {
    const found = documentOf(id);
    const document = typeof found === "string" ? null : found;
    const run = document === null || seed === undefined ? null : runs.value[runKey(document, seed)] ?? null;
    const trouble = typeof found === "string" ? found : typeof run === "string" ? run : null;
    return { letter: LETTERS[i]!, id, name: nameOf(id), document, run: typeof run === "string" ? null : run, trouble };
  });
});

/** Whatever is not known yet is asked for, while the sheet is open. */
effect(() => {
  const seed = findings.value?.seed;
  if (sheet.value !== "beside" || seed === undefined || examples.value.length === 0) return;
  const first = firstChoice();
  if (beside.value.length === 0 && first !== null) beside.value = [first];
  for (const id of [null, ...beside.value]) {
    const document = documentOf(id);
    const from = id && (storageOf(id) ?? id);
    if (document === null && from !== null) want(documents, documentKey(from), () => server.example(from));
    if (typeof document === "object" && document !== null) want(runs, runKey(document, seed), () => rehearse(document, seed));
  }
});

/** What the sheet opens with: the plan as opened once it has been changed, else the example that its own names; nothing where any other plan would be as good. */
function firstChoice(): string | null {
  return changed.value ? AS_OPENED : pair.value;
}

function want<T>(known: { value: Readonly<Record<string, T | string | null>>; peek(): Readonly<Record<string, T | string | null>> }, key: string, ask: () => Promise<T>): void {
  if (Object.hasOwn(known.peek(), key)) return;
  const set = (value: T | string | null) => { known.value = Object.fromEntries([...Object.entries(known.peek()).filter(([other]) => other !== key), [key, value] as const].slice(-KEPT)); };
  set(null);
  ask().then(set, (error: unknown) => set(reason(error)));
}

/** What failed for this plan is asked again. */
export function askAgain({ id, document }: Shown): void {
  const without = <T>(known: Readonly<Record<string, T>>, key: string) => Object.fromEntries(Object.entries(known).filter(([other]) => other !== key));
  if (document !== null) runs.value = without(runs.value, runKey(document, findings.value!.seed));
  else if (id !== null) documents.value = without(documents.value, documentKey(storageOf(id) ?? id));
}

/** One day more than the findings need: the day shown of a rehearsal is the one with the median finish, another in each plan. */
async function rehearse(document: Document, seed: number): Promise<Run> {
  const { signal } = new AbortController();
  const [all, one] = await Promise.all([server.rehearse(document, signal, { seed }), server.rehearse(document, signal, { seed, rehearsals: 1 })]);
  return { findings: all.findings, story: readRehearsed(await server.log(one.log, signal)) };
}
