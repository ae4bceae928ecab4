/** What silage does to the wall beside it: pressures measured on one bunker. Evidence for a caution, never a design load. */
import type { Range, Sourced } from "./sourced.ts";

const SOURCE = "Zhao & Jofriet 1991, Structural loads on bunker silo walls: experimental study, Journal of Agricultural Engineering Research 50:273-290, abstract";

/** Rise of the pressure on the wall with depth below the silage surface, in two seasons of maize silage beside a wall 4.9 m high. */
export const pressurePerDepth: Sourced<Range> = {
  value: [5.3, 6.8], unit: "kPa per m", source: SOURCE, mark: "published", range: [0, 4.9], note: "The range is of depth, m: the height of the wall.",
};

/** Most that a packing machine of 21 t added, near the silage surface. */
export const pressureOfMachine: Sourced = { value: 10, unit: "kPa", source: SOURCE, mark: "published", range: [21_000, 21_000], note: "The range is of the machine's mass, kg." };

/** Pressure on the foot of a wall under silage this deep (m), kPa, from the lower to the higher season. */
export function pressureAtFoot(depth: number): [number, number] {
  return [pressurePerDepth.value[0] * depth, pressurePerDepth.value[1] * depth];
}
