/** What lies in a storage: volume against fill and back again, footprint and mean depth. Fill model and axes: see shape.ts. */
import { floorFor, profileOf, sumsTo, topBehind, widthAt } from "./shape.ts";
import type { Profile, Shape } from "./shape.ts";
import { rootOf } from "./solve.ts";

/** The forage as it lies once the wedge has come so far. */
export interface Body {
  /** m3 */ readonly volume: number;
  /** m from the back to the foot of the front slope; more than the storage's length when it is overfull */ readonly toe: number;
  /** m, its highest point */ readonly top: number;
  /** m from back to front at the highest point: 0 while the wedge still grows */ readonly level: number;
  /** m from side to side at the highest point */ readonly topWidth: number;
}

/** m3 behind a front whose foot lies `toe` m from the back. Rises with the toe. */
export function volumeBehind(shape: Shape, toe: number): number {
  return behind(profileOf(shape), toe);
}

/** The same for a shape already cut into bands. */
export function behind(profile: Profile, toe: number): number {
  if (!(toe > 0)) return 0;
  const { area, lost } = sumsTo(profile, topBehind(profile, toe));
  return toe * area - lost;
}

/** m from the back to the foot of the front when this volume lies: the inverse of `volumeBehind`. Runs on past the end when it is more than fits. */
export function toeFor(shape: Shape, volume: number): number {
  if (!(volume > 0)) return 0;
  const profile = profileOf(shape);
  const grown = grownToe(profile);
  if (volume >= behind(profile, grown)) {
    const { area, lost } = sumsTo(profile, profile.top);
    return (volume + lost) / area;
  }
  // While the wedge grows, a step of the toe adds the whole cross-section up to its ridge.
  return rootOf((toe) => behind(profile, toe) - volume, (toe) => sumsTo(profile, topBehind(profile, toe)).area, 0, grown);
}

/** m from the back to the foot of a wedge that has just come to its full height. */
const grownToe = (profile: Profile): number => floorFor(profile, profile.top);

/** m3 in that wedge: with more it moves on and keeps its size. */
export function grownWedge(shape: Shape): number {
  const profile = profileOf(shape);
  return behind(profile, grownToe(profile));
}

/** Where this volume lies. */
export function bodyOf(shape: Shape, volume: number): Body {
  const profile = profileOf(shape);
  const toe = toeFor(shape, volume);
  const top = topBehind(profile, toe);
  return { volume: Math.max(0, volume), toe, top, level: Math.max(0, toe - floorFor(profile, top)), topWidth: toe > 0 ? widthAt(profile, top) : 0 };
}

/** m3 that it holds, up to the walls (and the crown) or to the planned height, with the front slope inside the length. */
export function capacityOf(shape: Shape): number {
  return volumeBehind(shape, shape.length);
}

/** m2 of floor that this volume covers, slopes included. */
export function footprintOf(shape: Shape, volume: number): number {
  return shape.width * toeFor(shape, volume);
}

/** m, volume over footprint: as given, else as this volume lies, at most that of the full storage. Never falls as the volume grows. */
export function meanDepthOf(shape: Shape, volume: number): number {
  if (shape.meanDepth !== null) return shape.meanDepth;
  const fits = Math.min(volume, capacityOf(shape));
  const floor = footprintOf(shape, fits);
  return floor > 0 ? fits / floor : 0;
}

/**
 * Share of the footprint that lies under slopes, 0 to 1: the front, and a pile's sides and back. Forage there is shallower and packs less than
 * the mean depth says. A crown does not count.
 */
export function baseUnderSlopes(shape: Shape, volume: number): number {
  const profile = profileOf(shape);
  const toe = toeFor(shape, volume);
  if (!(toe > 0)) return 0;
  const shoulder = Math.min(topBehind(profile, toe), profile.bands[0]!.to);
  return 1 - (widthAt(profile, shoulder) * Math.max(0, toe - floorFor(profile, shoulder))) / (shape.width * toe);
}
