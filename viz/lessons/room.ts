/** What a room has done in a lesson: its predictions, what the engine answered, and what it turned. */
import { batch, computed, effect, signal } from "@preact/signals";
import * as server from "../ask.ts";
import type { Document } from "../document.ts";
import { latest } from "../latest.ts";
import { readRehearsed, type Rehearsed } from "../rehearsed.ts";
import { lesson as lessonId, reason, sheet, step, turned } from "../state.ts";
import type { LessonId } from "../words/lessons.ts";
import { LESSONS } from "./all-lessons.ts";
import { LUCK, type Lesson, type Outcome } from "./lesson.ts";
import { turnable, withTurned } from "./turned.ts";

/** A rehearsed plan: its findings, and the day that is shown. */
export interface Run extends Outcome { readonly story: Rehearsed }

/** The lesson that is open, or null: the list of them all. */
export const lesson = computed<Lesson | null>(() => LESSONS.find(({ id }) => id === lessonId.value) ?? null);

/** Big type for a projector; wide screens begin with it. */
export const large = signal(matchMedia("(min-width: 1200px)").matches);

interface Predictions {
  readonly votes: Readonly<Record<string, number>>;
  /** of 100, where a number is asked for */ readonly guesses: readonly number[];
}
const NONE: Predictions = { votes: {}, guesses: [] };

/** Kept until the window is closed, so that going back in the browser does not cost the room its votes. */
const KEPT = "clampside-predictions";
const all = signal<Readonly<Partial<Record<LessonId, Predictions>>>>(kept());
export const predictions = computed(() => (lesson.value && all.value[lesson.value.id]) ?? NONE);
export const predicted = computed(() => predictions.value.guesses.length > 0 || Object.values(predictions.value.votes).some((votes) => votes > 0));

function kept(): Readonly<Partial<Record<LessonId, Predictions>>> {
  try {
    return JSON.parse(sessionStorage.getItem(KEPT) ?? "{}") as Readonly<Partial<Record<LessonId, Predictions>>>;
  } catch {
    return {};
  }
}

function predict(change: Partial<Predictions>): void {
  if (!lesson.value) return;
  all.value = { ...all.value, [lesson.value.id]: { ...predictions.value, ...change } };
  try {
    sessionStorage.setItem(KEPT, JSON.stringify(all.value));
  } catch { /* a window that keeps nothing: the votes last as long as the page */ }
}

/** One vote more for a choice, or one less. */
export function vote(choice: string, by: 1 | -1): void {
  const votes = Math.max(0, (predictions.value.votes[choice] ?? 0) + by);
  predict({ votes: { ...predictions.value.votes, [choice]: votes } });
}

export const guess = (number: number): void => predict({ guesses: [...predictions.value.guesses, number] });

/** Answers by what was asked. */
const answered = signal<ReadonlyMap<string, Run>>(new Map());
const examples = signal<ReadonlyMap<string, Document>>(new Map());
/** Why there is no answer, in words. */
export const lessonTrouble = signal<string | null>(null);

/** The lesson's plans, or null while its worked example is still on its way. */
export const plans = computed<readonly Document[] | null>(() => {
  if (!lesson.value) return null;
  const { base, plans: made } = lesson.value;
  const document = typeof base === "string" ? examples.value.get(base) : base;
  return document ? made.map((make) => make(document)) : null;
});
/** What the room has turned. */
export const turns = computed(() => (lesson.value ? turnable(lesson.value, turned.value) : {}));
/** The plans with that. */
export const turnedPlans = computed<readonly Document[] | null>(() => plans.value && withTurned(lesson.value!, plans.value, turns.value));

const keyOf = (document: Document): string => JSON.stringify(document);
const runsOf = (documents: readonly Document[] | null): readonly Run[] | null => {
  const runs = documents?.map((document) => answered.value.get(keyOf(document)));
  return runs?.every((run) => run !== undefined) ? (runs as readonly Run[]) : null;
};
/** What the engine says of the lesson's plans; null while it is asked. */
export const runs = computed(() => runsOf(plans.value));
/** How many of them it has answered. */
export const runsDone = computed(() => plans.value?.filter((document) => answered.value.has(keyOf(document))).length ?? 0);

const turnedNow = computed(() => runsOf(turnedPlans.value));
let lastTurned: readonly Run[] | null = null;
/** The newest answer to what the room has turned; the one before stays until it is there. */
export const turnedRuns = computed(() => (lastTurned = turnedNow.value ?? (lastTurned?.length === plans.value?.length ? lastTurned : runs.value)));

/** Answers kept besides those of the open lesson's own plans: a slider that is drawn to and fro asks for many. */
const REMEMBERED = 24;
function remembered(): [string, Run][] {
  const own = new Set(plans.peek()?.map(keyOf));
  const entries = [...answered.peek()];
  return entries.filter(([key], i) => own.has(key) || i >= entries.length - REMEMBERED);
}

/** ms that an answer may still take once a slider has moved again. */
const PATIENCE = 400;
const asks = latest<readonly Document[]>(async (documents, hangUp) => {
  try {
    for (const document of documents) {
      const key = keyOf(document);
      if (answered.peek().has(key)) continue;
      const answer = await server.rehearse(document, hangUp, { seed: LUCK });
      const story = readRehearsed(await server.log(answer.log, hangUp));
      batch(() => {
        answered.value = new Map([...remembered(), [key, { findings: answer.findings, story, scenario: story.scenario }]]);
        lessonTrouble.value = null;
      });
    }
  } catch (error) {
    if (!hangUp.aborted) lessonTrouble.value = reason(error);
  }
}, PATIENCE);

/** Asks for what is still missing: from the first prediction on, or for a handout. */
export function ask(): void {
  if (sheet.peek() !== "lessons" || !lesson.peek()) return;
  const documents = step.peek() === "try" ? turnedPlans.peek() : plans.peek();
  if (documents) asks.ask(documents);
  else void fetchBase(lesson.peek()!);
}

async function fetchBase({ base }: Lesson): Promise<void> {
  if (typeof base !== "string" || examples.peek().has(base)) return;
  try {
    const document = await server.example(base);
    examples.value = new Map([...examples.peek(), [base, document]]);
  } catch (error) {
    lessonTrouble.value = reason(error);
  }
}

effect(() => {
  if (sheet.value !== "lessons" || !lesson.value || step.value === "predict") return;
  if (!predicted.value && step.value !== "handout") return;
  void plans.value;
  void turnedPlans.value;
  ask();
});

let opened: Lesson | null = null;
effect(() => {
  if (lesson.value === opened) return;
  opened = lesson.value;
  lastTurned = null;
  lessonTrouble.value = null;
});
