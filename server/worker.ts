/** What a thread of the pool does: one job, or a part of one, at a time. Run from the built file only. */
export { perform as default, logOf, rehearsePart, tell } from "./job.ts";

/** Nothing: whoever asks for it wants this file read, and all that it needs with it. */
export const readUp = (): void => {};
