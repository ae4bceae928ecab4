/** The answer to how the day stands: the rest of it, rehearsed. It follows the plan and the state told by itself while the sheet is open. */
import { batch, computed, signal } from "@preact/signals";
import type { Findings } from "../../sim/findings/types.ts";
import type { Problem } from "../../sim/scenario/types.ts";
import * as server from "../ask.ts";
import type { Document } from "../document.ts";
import { latest } from "../latest.ts";
import { readRehearsed, type Rehearsed } from "../rehearsed.ts";
import { plan, reason, rehearsed, units } from "../state.ts";
import { now } from "../state/now.ts";
import { asRehearsed, firstAsked } from "./standing.ts";

export interface Answer {
  readonly findings: Findings;
  /** the rest of the day with the median finish */ readonly story: Rehearsed;
}

export const answer = signal<Answer | null>(null);
/** What is wrong with the state that was told; the answer is then of the last one that was sound. */
export const wrong = signal<readonly Problem[]>([]);
export const trouble = signal<string | null>(null);
export const asking = signal(false);

/** How the day stands: as it was told, or else as it was rehearsed for the time that is asked about first. */
export const standing = computed<Document | null>(() => now.value ?? (rehearsed.value && asRehearsed(rehearsed.value, firstAsked(rehearsed.value), units.value)));

/** ms that an answer may still take once the state has changed again. */
const PATIENCE = 400;

const answers = latest<{ readonly plan: Document; readonly standing: Document }>(async (asked, signal) => {
  asking.value = true;
  try {
    const { findings, log } = await server.rehearse(asked.plan, signal, { from: asked.standing });
    const story = readRehearsed(await server.log(log, signal));
    if (!signal.aborted) batch(() => {
      answer.value = { findings, story };
      wrong.value = [];
      trouble.value = null;
    });
  } catch (error) {
    if (signal.aborted) return;
    batch(() => {
      wrong.value = error instanceof server.Unsound ? error.problems : [];
      trouble.value = error instanceof server.Unsound ? null : reason(error);
    });
  } finally {
    asking.value = false;
  }
}, PATIENCE);

/** Asks for the rest of the day as the plan and the state now are. */
export function askRest(): void {
  if (plan.value && standing.value) answers.ask({ plan: plan.value, standing: standing.value });
}
