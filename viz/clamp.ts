/**
 * Where each lift lies in the long section of a storage: the same body that the engine reckons with. Lifts lie on the slope of the
 * working wedge, which grows at the back until it is as high as the storage and then moves towards the apron, level behind it.
 * x runs from the back of the storage towards the apron, z up from the floor, both in m.
 */
import { bodyOf, layoutOf, type Body, type Point, type Polygon, type Shape } from "../sim/forage/geometry/index.ts";

export type { Point };

export interface ClampLayout {
  readonly shape: Shape;
  /** m3 that lie when lifts up to and including i do */ readonly volumes: readonly number[];
  /** by lift; empty for one without volume */ readonly outlines: readonly Polygon[];
  /** everything as it lies in the end */ readonly body: Body;
}

/** Lays lifts of these volumes, m3, oldest first. */
export function layClamp(shape: Shape, lifts: readonly number[]): ClampLayout {
  let sum = 0;
  const volumes = lifts.map((volume) => (sum += volume));
  return { shape, volumes, outlines: layoutOf(shape, lifts).map(([outline]) => outline ?? []), body: bodyOf(shape, sum) };
}

/** Outline of lift i, of which a share lies. */
export function outlineOf({ shape, volumes, outlines }: ClampLayout, i: number, share = 1): Polygon {
  if (share >= 1) return outlines[i] ?? [];
  const before = volumes[i - 1] ?? 0;
  return layoutOf(shape, [before, share * ((volumes[i] ?? before) - before)])[1]![0] ?? [];
}

/** The upper and the lower end of the front slope when so many lifts, and a share of the next, lie; null before anything does. */
export function frontOf({ shape, volumes }: ClampLayout, lifts: number, share: number): readonly [upper: Point, toe: Point] | null {
  const before = volumes[lifts - 1] ?? 0;
  const laid = before + share * ((volumes[lifts] ?? before) - before);
  // All of it as one lift: its outline runs along the floor to the toe, and from there up the front.
  const [, toe, upper] = layoutOf(shape, [laid])[0]![0] ?? [];
  return toe && upper ? [upper, toe] : null;
}
