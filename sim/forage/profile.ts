/**
 * How density changes with depth, for pictures: at depth z below the finished surface the packing relation sees 2z in place of the mean
 * depth (assumption of this project), scaled so that the mean over the volume is the storage density. Measured profiles are steeper; say so beside the picture.
 */
import { depthTerm } from "./packing.ts";
import type { Range, Sourced } from "./sourced.ts";

const SOURCE = "D'Amours & Savoie 2005, ASAE paper 051051, herbage bunkers on 7 farms";

/** What was measured beside it. */
export const measuredProfile = {
  bottomOverTop: { value: 1.58, unit: "1", source: SOURCE, mark: "published", note: "samples 0.5 m above the floor over samples 0.5 m below the top" },
  centreOverWall: { value: 1.09, unit: "1", source: SOURCE, mark: "published", note: "centre over samples near the wall" },
  sectionMeans: { value: [206, 354], unit: "kg DM/m3", source: SOURCE, mark: "published", note: "13 cross-sections" },
} as const satisfies Record<string, Sourced<number | Range>>;

/** A level slice of a storage. */
export interface Slice {
  /** m from the finished surface to the slice's middle */ readonly depth: number;
  /** m3, or any measure in proportion to it */ readonly volume: number;
}

/** Density of each slice, kg DM/m3, so that their volume mean is `storageDensity`. At least one slice with volume. */
export function depthProfile(storageDensity: number, slices: readonly Slice[]): number[] {
  let volume = 0;
  let weighted = 0;
  for (const slice of slices) {
    volume += slice.volume;
    weighted += slice.volume * depthTerm(2 * slice.depth);
  }
  if (!(volume > 0)) throw new RangeError("A depth profile needs at least one slice with volume above 0.");
  const scale = (storageDensity * volume) / weighted;
  return slices.map((slice) => scale * depthTerm(2 * slice.depth));
}
