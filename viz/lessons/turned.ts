/** The plans of a lesson with its sliders turned. Pure. */
import type { Document } from "../document.ts";
import type { Lesson } from "./lesson.ts";

/** @param values slider id -> what a document would say, or the plain number */
export function withTurned({ knobs }: Lesson, plans: readonly Document[], values: Readonly<Record<string, string>>): readonly Document[] {
  return plans.map((document, i) => knobs.reduce((plan, { id, turns, write }) => {
    const value = values[id];
    return value !== undefined && (turns === "all" || i === plans.length - 1) ? write(plan, value) : plan;
  }, document));
}
