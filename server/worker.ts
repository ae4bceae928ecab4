/** What a thread of the pool does: one job at a time, start to end. Run from the built file only. */
export { perform as default } from "./job.ts";
