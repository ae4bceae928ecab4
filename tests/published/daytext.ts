/** Days rehearsed for a comparison with print: how they are read, and how a distance from print is told. */
import type { Scenario } from "../../sim/scenario/types.ts";
import { sound } from "../scenarios/example.ts";

/** A scenario from a document as a file would hold it; throws with what is wrong when it is not sound. */
export const soundScenario = (document: object): Scenario => sound(JSON.stringify(document)).scenario;

/** How far a figure of ours lies from one in print, as people say it: `12 % below`. */
export function deviation(ours: number, printed: number): string {
  const percent = 100 * (ours / printed - 1);
  return `${Math.abs(percent).toFixed(Math.abs(percent) < 10 ? 1 : 0)} % ${percent < 0 ? "below" : "above"}`;
}
