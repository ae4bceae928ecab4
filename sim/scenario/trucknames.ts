/** Trucks as people call them: by their kind and number. */
import type { Scenario } from "./types.ts";

/** The i-th of a kind, from 0. */
export const truckName = (kind: string, i: number): string => `${kind} ${i + 1}`;

/** All trucks of a plan, in the order of the file. */
export const truckNames = ({ trucks }: Pick<Scenario, "trucks">): string[] =>
  trucks.flatMap(({ kind, count }) => Array.from({ length: count }, (_, i) => truckName(kind, i)));
