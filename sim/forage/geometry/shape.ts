/**
 * The shape of a storage, and how it is filled.
 *
 * Fill model (assumption of this project, after the common practice of the progressive wedge). Forage is spread on a slope that rises 1 in
 * `wedge`. It starts at the back wall of a bunker, or at the back slope of a pile, and grows there until it is as high as the storage; from
 * then on the slope keeps its height and moves towards the apron, with a finished level top behind it. A crop that does not fill
 * the storage therefore lies at full height over less length, not thin over the whole floor. The front always keeps its slope and
 * its toe stays within the length: a bunker is open in front and holds less than the box of its walls. A pile's front is the flatter
 * of its wedge and its end slope. What goes in beyond the capacity runs on past the end at the same height, so that no volume is lost.
 *
 * x runs from the back towards the apron, y up from the floor, both in m. At every height the forage is a rectangle, from the back to the
 * front and from side to side, so everything here is a sum of short polynomials in the height.
 */

/** Dimensions in m. `Storage` of a checked scenario is one. */
export interface Shape {
  readonly form: "bunker" | "pile";
  /** at the base */ readonly width: number;
  /** at the base */ readonly length: number;
  /** wall height of a bunker, planned height of a pile */ readonly height: number;
  /** run per rise of the working slope; left out: a front as steep as the back, for a bunker closed by boards */ readonly wedge?: number;
  /** run per rise of sides and ends, pile only */ readonly sideSlope: number;
  /** given by the user, or null: then it follows from the volume */ readonly meanDepth: number | null;
  /** bunker only: how far the middle is rounded up above the walls, sloping down to them alike on both sides and at the back; left out: level */
  readonly crown?: number;
}

/** Heights between which sides, back and front are plane. */
export interface Band {
  readonly from: number;
  readonly to: number;
  /** m, at `from` */ readonly width: number;
  /** m of width lost per m of height, both sides together */ readonly narrowing: number;
  /** m, x of the back at `from` */ readonly back: number;
  /** run per rise of the back */ readonly backRun: number;
}

/** A shape cut into bands, with the slope of its front. */
export interface Profile {
  readonly bands: readonly Band[];
  /** run per rise */ readonly front: number;
  /** m, the highest the forage may come */ readonly top: number;
}

/** Run per rise of the back, and of a pile's sides. */
export const endRun = (shape: Shape): number => (shape.form === "pile" ? shape.sideSlope : 0);

/** Run per rise of the front: the wedge, never steeper than the ends. */
export const frontRun = (shape: Shape): number => Math.max(shape.wedge ?? 0, endRun(shape));

/** The bands of a shape. `front` puts another slope in place of its own. */
export function profileOf(shape: Shape, front = frontRun(shape)): Profile {
  const { width, height } = shape;
  const slope = endRun(shape);
  const ridge = slope > 0 ? width / (2 * slope) : Infinity;
  const shoulder = Math.min(height, ridge);
  const bands: Band[] = [{ from: 0, to: shoulder, width, narrowing: 2 * slope, back: 0, backRun: slope }];
  const crown = shape.form === "bunker" ? (shape.crown ?? 0) : 0;
  if (crown > 0) bands.push({ from: height, to: height + crown, width, narrowing: width / crown, back: 0, backRun: width / (2 * crown) });
  return { bands, front, top: shoulder + crown };
}

const bandAt = ({ bands }: Profile, y: number): Band => bands.find((band) => y <= band.to) ?? bands.at(-1)!;

/** m, from side to side at height y. */
export function widthAt(profile: Profile, y: number): number {
  const band = bandAt(profile, y);
  return Math.max(0, band.width - band.narrowing * (y - band.from));
}

/** m, x of the back at height y. */
export function backAt(profile: Profile, y: number): number {
  const band = bandAt(profile, y);
  return band.back + band.backRun * (y - band.from);
}

/** m of floor under back and front slope together when the forage comes to a ridge at height y. */
export const floorFor = (profile: Profile, y: number): number => backAt(profile, y) + profile.front * y;

/** m, the highest point behind a front with this toe: the inverse of `floorFor`, up to the top. */
export function topBehind(profile: Profile, toe: number): number {
  const { bands, front, top } = profile;
  if (!(toe > 0)) return 0;
  for (const band of bands) {
    const run = band.backRun + front;
    const floor = band.back + front * band.from;
    if (toe < floor + run * (band.to - band.from)) return band.from + (toe - floor) / run;
  }
  return top;
}

/** Sums over the heights from the floor to y. */
export interface Sums {
  /** m2: the width, that is the area of the cross-section */ readonly area: number;
  /** m3: width x `floorFor`, what back and front slope take away */ readonly lost: number;
  /** m3: width x height */ readonly lift: number;
}

/** Exact: in each band width and floor are straight lines in the height. */
export function sumsTo(profile: Profile, y: number): Sums {
  let area = 0;
  let lost = 0;
  let lift = 0;
  for (const { from, to, width, narrowing, back, backRun } of profile.bands) {
    const h = Math.min(y, to) - from;
    if (h <= 0) break;
    const floor = back + profile.front * from;
    const run = backRun + profile.front;
    const half = (h * h) / 2;
    const third = (h * h * h) / 3;
    const slab = width * h - narrowing * half;
    area += slab;
    lost += floor * slab + run * (width * half - narrowing * third);
    lift += from * slab + width * half - narrowing * third;
  }
  return { area, lost, lift };
}
