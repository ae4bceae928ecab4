/** What is under the sky when filling is over: the surface, the film for it, and what holds the film down. */
import type { Sourced } from "../sourced.ts";
import { toeFor } from "./body.ts";
import { backAt, profileOf, topBehind, widthAt } from "./shape.ts";
import type { Shape } from "./shape.ts";

/** How far sheets lie over one another, and over the edge all round. */
export const filmOverlap: Sourced = { value: 1, unit: "m", source: "what crews are told everywhere", mark: "common practice, no source" };

/** Width of one sheet; sheets lie across the storage, one behind the other. */
export const sheetWidth: Sourced = { value: 12, unit: "m", source: "no usual width found in print", mark: "assumption of this project" };

/** Tyres when each touches the next: car tyres of about 65 cm in rows, 1 / 0.65^2. */
export const tyresPerArea: Sourced = {
  value: 2.4, unit: "tyres per m2", source: "tyre beside tyre, as crews lay them", mark: "common practice, no source",
};

/** Bags laid end to end on every joint and all round the edge. */
export const bagLength: Sourced = { value: 1.2, unit: "m per bag", source: "bag touching bag, as crews lay them", mark: "common practice, no source" };

/** Slant of one m of height at this run per rise. */
const slant = (run: number): number => Math.sqrt(1 + run * run);

/** How the open surface measures. Upright faces stand at walls or boards and are not covered. */
interface Skin {
  /** m2 */ readonly area: number;
  /** m along the middle, from the back over the top down to the toe */ readonly along: number;
  /** m across the highest part, from side to side */ readonly across: number;
  /** m round the edge */ readonly edge: number;
}

function skinOf(shape: Shape, volume: number): Skin {
  const profile = profileOf(shape);
  const toe = toeFor(shape, volume);
  if (!(toe > 0)) return { area: 0, along: 0, across: 0, edge: 0 };
  const top = topBehind(profile, toe);
  const front = profile.front;
  const lengthAt = (y: number) => Math.max(0, toe - front * y - backAt(profile, y));

  let along = lengthAt(top);
  let across = widthAt(profile, top);
  let area = along * across;
  for (const { from, to, width, narrowing, backRun } of profile.bands) {
    const h = Math.min(to, top) - from;
    if (h <= 0) break;
    const side = narrowing / 2;
    const meanWidth = width - side * h;
    const meanLength = (lengthAt(from) + lengthAt(from + h)) / 2;
    if (side > 0) {
      area += 2 * meanLength * h * slant(side);
      across += 2 * h * slant(side);
    }
    for (const run of [front, backRun]) {
      if (run === 0) continue;
      area += meanWidth * h * slant(run);
      along += h * slant(run);
    }
  }
  const besideWalls = profile.bands[0]!.narrowing === 0;
  return { area, along, across, edge: 2 * (besideWalls ? along : toe) + 2 * shape.width };
}

/** m2 of open surface to cover when this volume lies: the level top, the front, a pile's sides and back, a crown; no walls. */
export function surfaceOf(shape: Shape, volume: number): number {
  return skinOf(shape, volume).area;
}

export interface FilmPlan {
  /** m2 of film */ readonly film: number;
  readonly sheets: number;
  /** m to weigh down: the joints between sheets and the edge all round */ readonly seams: number;
}

/**
 * The film for this volume: the surface, once more the overlap at each joint between sheets, and the overlap all round the edge.
 * @param overlap m @param sheet m, width of one sheet; more than the overlap
 */
export function coverFor(shape: Shape, volume: number, { overlap = filmOverlap.value, sheet = sheetWidth.value }: { readonly overlap?: number; readonly sheet?: number } = {}): FilmPlan {
  if (!(overlap >= 0 && sheet > overlap)) throw new RangeError(`A sheet ${sheet} m wide cannot overlap the next by ${overlap} m: give a wider sheet or a smaller overlap.`);
  const { area, along, across, edge } = skinOf(shape, volume);
  if (area === 0) return { film: 0, sheets: 0, seams: 0 };
  const sheets = Math.max(1, Math.ceil((along - overlap) / (sheet - overlap) - 1e-9));
  const joints = (sheets - 1) * across;
  return { film: area + overlap * (joints + edge), sheets, seams: joints + edge };
}

/** Tyres to lie on the whole surface, or bags for the joints and the edge: one or the other, whole ones. */
export function weightsFor(shape: Shape, volume: number, film: { readonly overlap?: number; readonly sheet?: number } = {}): { readonly tyres: number; readonly bags: number } {
  return {
    tyres: Math.ceil(surfaceOf(shape, volume) * tyresPerArea.value),
    bags: Math.ceil(coverFor(shape, volume, film).seams / bagLength.value),
  };
}
