/** What the page knows, and what changes it. Everything shown is a function of these signals. */
import { batch, computed, effect, signal } from "@preact/signals";
import type { Findings } from "../sim/findings/types.ts";
import { momentAt, type Moment } from "../sim/harvest/moment.ts";
import type { Problem } from "../sim/scenario/types.ts";
import { readAddress, writeAddress } from "./address.ts";
import * as server from "./ask.ts";
import { applyEdits, type Edits } from "./controls.ts";
import type { Document } from "./document.ts";
import { latest } from "./latest.ts";
import type { UnitSystem } from "./quantity.ts";
import { readRehearsed, type Rehearsed } from "./rehearsed.ts";
import { words } from "./words.ts";

const opened = readAddress(location.hash);

export const examples = signal<readonly server.Example[]>([]);
export const exampleId = signal(opened.example);
export const edits = signal<Edits>(opened.edits);
export const SYSTEMS_SHOWN: readonly UnitSystem[] = ["metric", "us"];
export const units = signal<UnitSystem>(opened.units);
/** s after midnight that the reader went to, or null: the moment that tells most */ export const cursor = signal(opened.at);

/** The choice of `beside` that means the plan without the reader's changes. */
export const AS_OPENED = "as-opened";
/** What the plan is compared with: an example's id, or `AS_OPENED`; null while the section is closed. */ export const beside = signal(opened.beside);

/** The worked example as the server gave it. */
export const original = signal<Document | null>(null);
/** The plan: the example with the reader's edits. */
export const plan = computed(() => original.value && applyEdits(original.value, edits.value));

export const findings = signal<Findings | null>(null);
export const rehearsed = signal<Rehearsed | null>(null);
/** What is wrong with the plan; the findings are then of the last plan that was sound. */
export const problems = signal<readonly Problem[]>([]);
/** Why there is no answer, in words, when it is not the plan's fault. */
export const trouble = signal<string | null>(null);
export const asking = signal(false);

/** s after midnight that the drawings show. */
export const time = computed(() => {
  if (!rehearsed.value) return 0;
  const { from, until } = rehearsed.value.replay.day;
  return Math.min(until, Math.max(from, cursor.value ?? rehearsed.value.telling));
});
export const moment = computed<Moment | null>(() => rehearsed.value && momentAt(rehearsed.value.replay, time.value));

/** ms that an answer may still take once the plan has changed again. */
const PATIENCE = 400;

const answers = latest<Document>(async (document, signal) => {
  asking.value = true;
  try {
    const answer = await server.rehearse(document, signal);
    batch(() => {
      findings.value = answer.findings;
      problems.value = [];
      trouble.value = null;
    });
    const text = await server.log(answer.log, signal);
    if (!signal.aborted) rehearsed.value = readRehearsed(text);
  } catch (error) {
    if (signal.aborted) return;
    batch(() => {
      problems.value = error instanceof server.Unsound ? error.problems : [];
      trouble.value = error instanceof server.Unsound ? null : reason(error);
    });
  } finally {
    asking.value = false;
  }
}, PATIENCE);

/** What an error means, in words for the reader. */
export function reason(error: unknown): string {
  if (error instanceof server.TooFast) return words.trouble.tooFast;
  if (error instanceof SyntaxError) return words.trouble.unreadable;
  return words.trouble.unreachable;
}

/** Sets one control to what a document would say; null takes the edit back. */
export function edit(id: string, value: string | null): void {
  const { [id]: _, ...others } = edits.value;
  edits.value = value === null ? others : { ...others, [id]: value };
}

/** Opens another worked example as it is. Rejects when the server does not give it. */
async function openExample(id: string): Promise<void> {
  const document = await server.example(id);
  batch(() => {
    exampleId.value = id;
    edits.value = {};
    cursor.value = null;
    original.value = document;
  });
}

/** The reader's choice of another example; when it cannot be had, the page says so and stays as it is. */
export function chooseExample(id: string): void {
  trouble.value = null;
  openExample(id).catch((error: unknown) => { trouble.value = reason(error); });
}

/** Takes up what the address says, asks for the first answer, and from then on keeps address and answer in step with the plan. */
export async function open(): Promise<void> {
  try {
    examples.value = await server.examples();
    const wanted = examples.value.find(({ id }) => id === exampleId.value) ?? examples.value.find(({ id }) => id === FIRST) ?? examples.value[0];
    if (!wanted) {
      trouble.value = words.trouble.noExamples;
      return;
    }
    const document = await server.example(wanted.id);
    batch(() => {
      exampleId.value = wanted.id;
      original.value = document;
    });
  } catch (error) {
    trouble.value = reason(error);
  }
}

/** The worked example that the page opens with. */
const FIRST = "contractor-corn-day";

effect(() => {
  if (plan.value) answers.ask(plan.value);
});

/** The address is written once things have come to rest: browsers refuse more than a few changes a second. */
const REST = 250;
let writing: ReturnType<typeof setTimeout> | undefined;
effect(() => {
  const address = writeAddress({ example: exampleId.value, edits: edits.value, at: cursor.value, units: units.value, beside: beside.value });
  clearTimeout(writing);
  writing = setTimeout(() => {
    if (original.value && address !== location.hash) history.replaceState(null, "", address || location.pathname);
  }, REST);
});

addEventListener("hashchange", () => {
  const said = readAddress(location.hash);
  batch(() => {
    units.value = said.units;
    cursor.value = said.at;
    beside.value = said.beside;
  });
  if (said.example !== null && said.example !== exampleId.value && examples.value.some(({ id }) => id === said.example)) {
    void openExample(said.example).then(() => batch(() => {
      edits.value = said.edits;
      cursor.value = said.at;
    })).catch((error: unknown) => { trouble.value = reason(error); });
  } else edits.value = said.edits;
});
