/** From rings as drawn or driven to the outline of a field: closed, free of doubles, nothing crossing, holes inside and parts apart. What cannot be mended is refused with its place. */
import type { Problems } from "../scenario/problems.ts";
import type { Path } from "../scenario/words.ts";
import { pathOf } from "../scenario/words.ts";
import { crossingOf } from "./crossing.ts";
import type { Drawn, DrawnRing } from "./drawn.ts";
import { MAP_LIMITS } from "./limits.ts";
import { withoutLoops } from "./loops.ts";
import { isInside, isOnEdge, lineBetween, placed, Plane, spansAt } from "./plane.ts";
import type { Place, Point } from "./plane.ts";
import { drivenRound } from "./round.ts";
import type { Told } from "./told.ts";

/** A ring without its closing point: each corner as a place and on the outline's plane. */
export interface Ring {
  readonly path: Path;
  readonly places: readonly Place[];
  readonly points: readonly Point[];
  /** the number of each corner in the file */ readonly numbers: readonly number[];
}

export interface Part { readonly outer: Ring; readonly holes: readonly Ring[] }

/** The outline of one field; its plane touches the Earth at the first corner. */
export interface Outline { readonly parts: readonly Part[]; readonly plane: Plane }

/** The outline, or null when it was refused: the reason is then among the problems. */
export function outlineOf(drawn: Drawn, problems: Problems, told: Told): Outline | null {
  const first = drawn.parts[0]?.[0]?.places[0];
  if (!first) {
    problems.add(drawn.path, "has no points: a field needs three at least");
    return null;
  }
  const plane = new Plane(first);
  const parts: Part[] = [];
  let points = 0;
  for (const [outerDrawn, ...holesDrawn] of drawn.parts) {
    const rings = [outerDrawn!, ...holesDrawn].map((ring) => {
      points += ring.places.length;
      return ringOf(ring, drawn.driven, plane, problems, told);
    });
    if (rings.some((ring) => ring === null)) return null;
    const [outer, ...holes] = rings as Ring[];
    parts.push({ outer: outer!, holes });
  }
  if (points > MAP_LIMITS.fieldPoints) {
    problems.add(drawn.path, `has ${points} points: a field may have ${MAP_LIMITS.fieldPoints}; simplify it`);
    return null;
  }
  const outline = { parts, plane };
  return isCrossed(outline, problems) || isMisplaced(outline, problems) ? null : outline;
}

function ringOf({ path, places }: DrawnRing, driven: boolean, plane: Plane, problems: Problems, told: Told): Ring | null {
  const round = driven ? drivenRound(path, places, problems, told) : places;
  if (round === null) return null;
  const kept: { place: Place; number: number }[] = [];
  round.forEach((place, number) => {
    const last = kept.at(-1)?.place;
    if (!last || !same(last, place)) kept.push({ place, number });
  });
  const [start, end] = [kept[0], kept.at(-1)];
  if (kept.length > 1 && same(start!.place, end!.place)) kept.pop();
  else if (!driven && kept.length > 2) told.add(`${pathOf(path)} does not come back to its first point: closed with a straight side.`);
  if (kept.length < 3) {
    problems.add(path, `has ${kept.length === 1 ? "1 point" : `${kept.length} points`} apart from each other: a ring needs three, and the first once more at its end`);
    return null;
  }
  const middle = plane.placeOf({ x: 0, y: 0 });
  const far = kept.find(({ place }) => lineBetween(middle, place).length > MAP_LIMITS.reach);
  if (far) {
    problems.add([...path, far.number], `lies at ${placed(far.place)}, ${Math.round(lineBetween(middle, far.place).length / 1000)} km from the first point of the field: no field reaches beyond ${MAP_LIMITS.reach / 1000} km`);
    return null;
  }
  const ring = { path, places: kept.map(({ place }) => place), points: kept.map(({ place }) => plane.pointOf(place)), numbers: kept.map(({ number }) => number) };
  return driven ? unlooped(ring, plane, told) : ring;
}

function unlooped(ring: Ring, plane: Plane, told: Told): Ring {
  const { corners, loops } = withoutLoops(ring.points);
  if (loops === 0) return ring;
  told.add(`${pathOf(ring.path)} crosses itself in ${loops === 1 ? "a small loop, which is" : `${loops} small loops, which are`} left out: the machine turned or stood there, or the receiver strayed.`);
  return {
    path: ring.path, points: corners.map(({ point }) => point), numbers: corners.map(({ from }) => ring.numbers[from]!),
    places: corners.map(({ point, from }) => (point === ring.points[from] ? ring.places[from]! : plane.placeOf(point))),
  };
}

const same = (a: Place, b: Place): boolean => a.lat === b.lat && (a.lon === b.lon || Math.abs(a.lon - b.lon) === 360);

/** Refuses rings that cross themselves or each other, with the place. */
function isCrossed({ parts, plane }: Outline, problems: Problems): boolean {
  const rings = parts.flatMap(({ outer, holes }) => [outer, ...holes]);
  const crossing = crossingOf(rings.map(({ points }) => points));
  if (!crossing) return false;
  const [one, other] = [rings[crossing.one.ring]!, rings[crossing.other.ring]!];
  const at = placed(plane.placeOf(crossing.at));
  if (one === other) {
    const [before, after] = [one.numbers[crossing.one.side]!, one.numbers[crossing.other.side]!].sort((a, b) => a - b);
    problems.add(one.path, `crosses or touches itself at ${at}, after its points ${before} and ${after}: draw it so that it does not`);
  } else {
    const [before, after] = crossing.one.ring < crossing.other.ring ? [one, other] : [other, one];
    problems.add(after.path, `crosses ${pathOf(before.path)} at ${at}: draw them so that they do not`);
  }
  return true;
}

/** Refuses holes outside their part, holes that overlap, and parts that overlap: their area would be counted wrongly. No two rings cross any more. */
function isMisplaced({ parts, plane }: Outline, problems: Problems): boolean {
  const refuse = (ring: Ring, at: Point, ending: (place: string) => string): true => {
    problems.add(ring.path, ending(placed(plane.placeOf(at))));
    return true;
  };
  const wholes = (rings: readonly Ring[]): Part[] => rings.map((outer) => ({ outer, holes: [] }));
  const refuseShared = (pieces: readonly Part[], called: string): boolean => pieces.some((piece, p) => pieces.slice(0, p).some((before) => {
    const shared = sharedPoint(piece, before);
    return shared !== null && refuse(piece.outer, shared, (at) => `overlaps ${pathOf(before.outer.path)} at ${at}: that ${called} would be counted twice`);
  }));
  return parts.some(({ outer, holes }) => refuseShared(wholes(holes), "hole") || wholes(holes).some((hole) => {
    const outside = samplesOf(hole).find((point) => !isInside(point, outer.points) && !isOnEdge(point, outer.points));
    return outside !== undefined
      && refuse(hole.outer, outside, (at) => `is a hole that lies outside of its field at ${at}: a part of its own is a polygon of its own`);
  })) || refuseShared(parts, "part");
}

/** A point that lies within both, or null. */
function sharedPoint(one: Part, other: Part): Point | null {
  if (areApart(one.outer.points, other.outer.points)) return null;
  return samplesOf(one).find((point) => lies(point, other)) ?? samplesOf(other).find((point) => lies(point, one)) ?? null;
}

/** True well within the part: not in a hole, on no edge. */
const lies = (point: Point, { outer, holes }: Part): boolean =>
  isInside(point, outer.points) && !holes.some((hole) => isInside(point, hole.points)) && ![outer, ...holes].some((ring) => isOnEdge(point, ring.points));

/** One point within the part, then the corners and the middles of the sides of its outer ring: as no sides cross, what reaches into another shows it by one of them. */
function samplesOf({ outer, holes }: Part): Point[] {
  const rings = [outer, ...holes].map(({ points }) => points);
  const heights = [...new Set(rings.flat().map(({ y }) => y))].sort((a, b) => a - b);
  const above = Math.floor(heights.length / 2);
  const middle = heights.length < 2 ? NaN : (heights[above - 1]! + heights[above]!) / 2;
  const [widest] = [...spansAt(rings, middle)].sort((a, b) => b[1] - b[0] - (a[1] - a[0]));
  const { points } = outer;
  return [
    ...(widest ? [{ x: (widest[0] + widest[1]) / 2, y: middle }] : []),
    ...points,
    ...points.map((from, i) => ({ x: (from.x + points[(i + 1) % points.length]!.x) / 2, y: (from.y + points[(i + 1) % points.length]!.y) / 2 })),
  ];
}

/** True when the boxes about two rings do not meet. */
function areApart(one: readonly Point[], other: readonly Point[]): boolean {
  const [a, b] = [boxOf(one), boxOf(other)];
  return a.east < b.west || b.east < a.west || a.north < b.south || b.north < a.south;
}

function boxOf(points: readonly Point[]) {
  const box = { west: Infinity, east: -Infinity, south: Infinity, north: -Infinity };
  for (const { x, y } of points) {
    box.west = Math.min(box.west, x);
    box.east = Math.max(box.east, x);
    box.south = Math.min(box.south, y);
    box.north = Math.max(box.north, y);
  }
  return box;
}
