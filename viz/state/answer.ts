/** The answer to the plan: findings, the day that is shown, or what is wrong. It follows the plan by itself. */
import { batch, computed, effect, signal } from "@preact/signals";
import type { Findings } from "../../sim/findings/types.ts";
import { momentAt, type Moment } from "../../sim/harvest/moment.ts";
import type { Problem } from "../../sim/scenario/types.ts";
import * as server from "../ask.ts";
import type { Document } from "../document.ts";
import { latest } from "../latest.ts";
import { readRehearsed, type Rehearsed } from "../rehearsed.ts";
import { open, plan } from "./plan.ts";
import { cursor, hovered } from "./show.ts";
import { reason, trouble } from "./trouble.ts";

export const findings = signal<Findings | null>(null);
export const rehearsed = signal<Rehearsed | null>(null);
/** What is wrong with the plan; the findings are then of the last plan that was sound. */
export const problems = signal<readonly Problem[]>([]);
export const asking = signal(false);

/** s after midnight that the drawings show. */
export const time = computed(() => (rehearsed.value ? within(rehearsed.value, cursor.value ?? rehearsed.value.telling) : 0));
export const moment = computed<Moment | null>(() => rehearsed.value && momentAt(rehearsed.value.replay, time.value));
/** s after midnight that the figures beside the pictures speak of: the time pointed at, else the one that is drawn. */
export const seen = computed(() => (rehearsed.value && hovered.value !== null ? within(rehearsed.value, hovered.value) : time.value));
/** The day at that time. */
export const momentSeen = computed<Moment | null>(() => rehearsed.value && (seen.value === time.value ? moment.value : momentAt(rehearsed.value.replay, seen.value)));

function within({ replay: { day: { from, until } } }: Rehearsed, seconds: number): number {
  return Math.min(until, Math.max(from, seconds));
}

/** ms that an answer may still take once the plan has changed again. */
const PATIENCE = 400;

/** Days of a first look at a plan that has changed: the first of those that the whole answer is made of. They come at once, while a slider is still held. */
const FIRST_LOOK = 10;

const answers = latest<Document>(async (document, signal, isOutdated) => {
  asking.value = true;
  try {
    const varies = document.variation !== "none";
    if (varies && findings.peek() !== null) {
      const look = await server.rehearse(document, signal, { rehearsals: FIRST_LOOK });
      tell(look.findings);
      await shown();
      if (isOutdated()) return await draw(look.log, signal);
    }
    const answer = await server.rehearse(document, signal);
    tell(answer.findings);
    await draw(answer.log, signal);
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

/** Until what was told stands on the screen: a server on the same machine, busy with the next question, would make that late. A page that nobody sees has no frames, and waits no longer than this. */
const shown = (): Promise<void> => new Promise((done) => {
  const late = setTimeout(done, 100);
  requestAnimationFrame(() => {
    clearTimeout(late);
    setTimeout(done);
  });
});

function tell(answer: Findings): void {
  batch(() => {
    findings.value = answer;
    problems.value = [];
    trouble.value = null;
  });
}

async function draw(log: string, signal: AbortSignal): Promise<void> {
  const text = await server.log(log, signal);
  if (!signal.aborted) rehearsed.value = readRehearsed(text);
}

effect(() => {
  if (plan.value) answers.ask(plan.value);
});

/** Asks once more where there is no answer yet: for the plan's, or for the plans themselves. */
export function askFirst(): void {
  trouble.value = null;
  if (plan.value) answers.ask(plan.value);
  else void open();
}
