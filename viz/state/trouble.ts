/** Why there is no answer, when it is not the plan's fault. */
import { signal } from "@preact/signals";
import { NoResult, TooFast, Unsound } from "../ask.ts";
import { words } from "../words.ts";

/** In words, or null. */
export const trouble = signal<string | null>(null);

/** What an error means, in words for the reader. */
export function reason(error: unknown): string {
  if (error instanceof Unsound) return error.problems.map(({ detail }) => detail).join(" ");
  if (error instanceof NoResult) return error.message;
  if (error instanceof TooFast) return words.trouble.tooFast;
  if (error instanceof SyntaxError) return words.trouble.unreadable;
  return words.trouble.unreachable;
}
