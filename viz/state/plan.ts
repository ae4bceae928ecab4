/** The plan: a worked example or a plan of the reader's own, and what the reader changed in it. */
import { batch, computed, effect, signal } from "@preact/signals";
import { readAddress } from "../address.ts";
import * as server from "../ask.ts";
import { applyEdits, type Edits } from "../controls.ts";
import { at, listAt, type Document } from "../document.ts";
import { namesKept } from "../english.ts";
import { words } from "../words.ts";
import { reason, trouble } from "./trouble.ts";
import { cursor } from "./show.ts";

const opened = readAddress(location.hash);

export const examples = signal<readonly server.Example[]>([]);
/** Plans that the server keeps. */
export const kept = signal<readonly server.Kept[]>([]);
export const exampleId = signal(opened.example);
/** What the address called for and nobody here has, or null: the page shows another plan in its place. */
export const missing = signal<string | null>(null);
/** The worked example or the kept plan as the server gave it. */
export const example = signal<Document | null>(null);
/** Tag of the revision that was opened or saved last; null for a worked example, which stays as it is. */
export const keptTag = signal<string | null>(null);
/** A whole plan of the reader's own in its place. */
export const own = signal<Document | null>(opened.own);
export const edits = signal<Edits>(opened.edits);

/** What the edits are made to. */
export const original = computed(() => example.value && (own.value ?? example.value));
/** The plan: the original with the reader's edits. */
export const plan = computed(() => original.value && applyEdits(original.value, edits.value));
/** The reader has changed something. */
export const changed = computed(() => own.value !== null || Object.keys(edits.value).length > 0);

/** A change that was tried on the plan: in words, as it stood on its card, and the plan before it. */
export interface Tried { readonly what: string; readonly own: Document | null; readonly edits: Edits }
/** Changes tried one after another and not kept yet. */
export const tried = signal<readonly Tried[]>([]);

/** Sets one control to what a document would say; null takes the edit back. */
export function edit(id: string, value: string | null): void {
  const { [id]: _, ...others } = edits.value;
  edits.value = value === null ? others : { ...others, [id]: value };
}

/** Puts a whole document in place of the plan, the edits so far being part of it. */
export function rewrite(document: Document): void {
  batch(() => {
    own.value = document;
    edits.value = {};
  });
}

/** Everything as the example has it. */
export function backToExample(): void {
  batch(() => {
    own.value = null;
    edits.value = {};
  });
}

/** What was on the page, with the reader's changes, before another plan took its place. */
export interface Aside { readonly document: Document; readonly id: string | null; readonly example: Document; readonly tag: string | null }
export const aside = signal<Aside | null>(null);

/** Lays the plan aside if the reader has changed it: nothing is lost by opening another. */
export function layAside(): void {
  if (changed.value && plan.value && example.value) aside.value = { document: plan.value, id: exampleId.value, example: example.value, tag: keptTag.value };
}

/** Takes up again what was laid aside, and lays aside what is there. */
export function takeUp({ document, id, example: under, tag }: Aside): void {
  batch(() => {
    aside.value = null;
    layAside();
    tried.value = [];
    exampleId.value = id;
    example.value = under;
    keptTag.value = tag;
    rewrite(document);
  });
}

/** Opens another worked example, or a plan that the server keeps, as it is. Rejects when the server does not give it. */
export async function openExample(id: string): Promise<void> {
  const { document, tag } = await server.opened(id);
  batch(() => {
    layAside();
    tried.value = [];
    missing.value = null;
    exampleId.value = id;
    keptTag.value = isKept(id) ? tag : null;
    own.value = null;
    edits.value = {};
    cursor.value = null;
    example.value = document;
  });
}

/** The reader's choice of another example; when it cannot be had, the page says so and stays as it is. */
export function chooseExample(id: string): void {
  trouble.value = null;
  openExample(id).catch((error: unknown) => { trouble.value = reason(error); });
}

const isKept = (id: string) => kept.value.some((plan) => plan.id === id);

/** Asks anew which plans there are. Rejects when the server does not tell. */
export async function list(): Promise<void> {
  const { scenarios, saved } = await server.plans();
  batch(() => {
    examples.value = scenarios;
    kept.value = saved;
  });
}

/** Takes up what the address says, and opens the example it names or the first one. */
export async function open(): Promise<void> {
  try {
    await list();
    const wanted = [...examples.value, ...kept.value].find(({ id }) => id === exampleId.value) ?? examples.value.find(({ id }) => id === FIRST) ?? examples.value[0];
    if (!wanted) {
      trouble.value = words.trouble.noExamples;
      return;
    }
    const { document, tag } = await server.opened(wanted.id);
    batch(() => {
      // A plan of the reader's own stands in the address whole: what it began with is not missed.
      if (own.value === null && exampleId.value !== null && exampleId.value !== wanted.id) missing.value = exampleId.value;
      exampleId.value = wanted.id;
      keptTag.value = isKept(wanted.id) ? tag : null;
      example.value = document;
    });
  } catch (error) {
    trouble.value = reason(error);
  }
}

/** The worked example that the page opens with. */
const FIRST = "contractor-corn-day";

/** What the reader named keeps its name in every English. */
effect(() => {
  const named = (list: readonly unknown[], key: string) => list.map((item) => at(item as Document, [key])).filter((name): name is string => typeof name === "string");
  const document = plan.value;
  namesKept.value = document === null ? [] : [
    ...named([document], "name"), ...named(listAt(document, ["fields"]), "name"), ...named(listAt(document, ["choppers"]), "name"), ...named(listAt(document, ["trucks"]), "kind"),
    ...listAt(document, ["storage"]).flatMap((storage) => [...named([storage], "name"), ...named(listAt(storage, ["tractors"]), "name")]),
    ...named(listAt(document, ["packing", "tractors"]), "name"),
  ];
});
