/** The plain shape of a storage: what it holds, and how deep the forage lies on average. */

/** Dimensions in m. A bunker is a box up to its walls; a pile is a frustum whose sides and ends rise 1 in `sideSlope`. */
export interface Shape {
  readonly form: "bunker" | "pile";
  readonly width: number;
  readonly length: number;
  readonly height: number;
  /** run per rise, pile only */ readonly sideSlope: number;
  /** given by the user, or null: then it follows from the volume */ readonly meanDepth: number | null;
}

/** m3 below a level surface at this height. */
export function volumeAt(shape: Shape, height: number): number {
  const { width, length } = shape;
  if (shape.form === "bunker") return width * length * height;
  // Prismoidal rule over base, middle and top: exact for a frustum with plane sides.
  const area = (z: number) => Math.max(0, width - 2 * shape.sideSlope * z) * Math.max(0, length - 2 * shape.sideSlope * z);
  return (height / 6) * (area(0) + 4 * area(height / 2) + area(height));
}

/** m3 that it holds, up to the walls or to the planned height. */
export function capacityOf(shape: Shape): number {
  return volumeAt(shape, shape.height);
}

/** m, volume over footprint: as given, else the forage spread level over the whole base, at most full. */
export function meanDepthOf(shape: Shape, volume: number): number {
  return shape.meanDepth ?? Math.min(volume, capacityOf(shape)) / (shape.width * shape.length);
}
