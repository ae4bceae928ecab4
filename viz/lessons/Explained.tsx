/** The explanation, out of the figures that the engine has just given. */
import { textIn } from "../sentences.ts";
import { units } from "../state.ts";
import type { Lesson, Outcome } from "./lesson.ts";
import { sayIn } from "./say.ts";

export function Explained({ lesson, told }: { readonly lesson: Lesson; readonly told: readonly Outcome[] }) {
  return <ul class="explained">{lesson.explain(told, sayIn(units.value)).map((sentence) => <li key={sentence}>{textIn("metric", sentence)}</li>)}</ul>;
}
