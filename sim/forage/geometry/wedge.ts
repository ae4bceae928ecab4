/** The slope that the crew works on, at every stage of the day. */
import { behind, bodyOf, toeFor } from "./body.ts";
import { frontRun, profileOf, sumsTo, topBehind } from "./shape.ts";
import type { Shape } from "./shape.ts";
import { rootOf } from "./solve.ts";

/** A layer more is not begun for this share of one. */
const SLIVER = 1e-9;

/** The working slope. */
export interface WedgeSurface {
  /** m2, on the slope itself */ readonly area: number;
  /** m, up the slope */ readonly length: number;
  /** m across, on the average: area / length */ readonly width: number;
  /** m, its height */ readonly height: number;
}

/** The slope to work on when this volume lies; nothing before the first load. It grows up to the full height and keeps its size from then on. */
export function wedgeSurface(shape: Shape, volumeSoFar: number): WedgeSurface {
  const { top } = bodyOf(shape, volumeSoFar);
  if (!(top > 0)) return { area: 0, length: 0, width: 0, height: 0 };
  const profile = profileOf(shape);
  const slant = Math.sqrt(1 + profile.front ** 2);
  const { area } = sumsTo(profile, top);
  return { area: area * slant, length: top * slant, width: area / top, height: top };
}

/**
 * How many layers of the set thickness a load makes: its loose volume moves the front on by so much, and each layer, measured square to the slope,
 * by its own thickness. On a full wedge that is loose volume / (surface x layer); on the first loads the wedge is small and the layers many. At least 1.
 * @param looseVolume m3, as spread @param layer m, loose
 */
export function layersPerLoad(shape: Shape, volumeSoFar: number, looseVolume: number, layer: number): number {
  const advance = toeFor(shape, volumeSoFar + looseVolume) - toeFor(shape, volumeSoFar);
  const perLayer = layer * Math.sqrt(1 + frontRun(shape) ** 2);
  return Math.max(1, Math.ceil(advance / perLayer - SLIVER));
}

/**
 * Run per rise of the front when hurry leaves its foot where it is: so much more forage goes on the slope and the top, and nobody pushes it down to a
 * new toe. 0 when it would not even stand upright there. Before the first load there is no toe to keep, and the answer is the slope itself.
 * @param added m3 that go on at once
 */
export function steepenedRun(shape: Shape, volumeSoFar: number, added: number): number {
  const slope = frontRun(shape);
  const toe = toeFor(shape, volumeSoFar);
  if (!(toe > 0 && slope > 0)) return slope;
  const wanted = behind(profileOf(shape), toe) + Math.max(0, added);
  if (behind(profileOf(shape, 0), toe) <= wanted) return 0;
  // At a fixed toe the volume falls by the sum of width x height for each unit of run.
  return rootOf(
    (run) => wanted - behind(profileOf(shape, run), toe),
    (run) => {
      const profile = profileOf(shape, run);
      return sumsTo(profile, topBehind(profile, toe)).lift;
    },
    0, slope,
  );
}
