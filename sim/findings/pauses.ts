/** The breaks of a shift as time that is no working time. */
import type { Scenario } from "../scenario/types.ts";

/** s of breaks that lie between two instants, both s after midnight. */
export const pausedBetween = (breaks: Scenario["shift"]["breaks"], from: number, to: number): number =>
  breaks.reduce((rest, pause) => rest + Math.max(0, Math.min(to, pause.at + pause.for) - Math.max(from, pause.at)), 0);
