/**
 * Where each lift lies in the long section of a storage: the same body that the engine reckons with. Lifts lie on the slope of the
 * working wedge, which grows at the back until it is as high as the storage and then moves towards the apron, level behind it.
 * x runs from the back of the storage towards the apron, z up from the floor, both in m.
 */
import { bodyOf, layoutOf, type Body, type Point, type Polygon, type Shape } from "../sim/forage/geometry/index.ts";

export type { Point, Polygon };

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

/** Outline of so many lifts, and a share of the next, as if they were one. */
export function sectionOf({ shape, volumes }: ClampLayout, lifts: number, share = 0): Polygon {
  const before = volumes[lifts - 1] ?? 0;
  return layoutOf(shape, [before + share * ((volumes[lifts] ?? before) - before)])[0]![0] ?? [];
}

/** The upper and the lower end of the front slope when so many lifts, and a share of the next, lie; null before anything does. */
export function frontOf(layout: ClampLayout, lifts: number, share: number): readonly [upper: Point, toe: Point] | null {
  // The outline runs along the floor to the toe, and from there up the front.
  const [, toe, upper] = sectionOf(layout, lifts, share);
  return toe && upper ? [upper, toe] : null;
}

/** Mean thickness of so many lifts across their slope, where a metre is drawn `m` long and `up` high. */
export function thicknessOf(layout: ClampLayout, lifts: number, m: number, up: number): number {
  const front = frontOf(layout, lifts, 0);
  if (front === null) return 0;
  const [[x, z], [toe, floor]] = front;
  const section = sectionOf(layout, lifts);
  const area = Math.abs(section.reduce((sum, [x0, z0], i) => {
    const [x1, z1] = section[(i + 1) % section.length]!;
    return sum + (x0 * z1 - x1 * z0) / 2;
  }, 0));
  return (area * m * up) / lifts / Math.hypot((toe - x) * m, (z - floor) * up);
}
