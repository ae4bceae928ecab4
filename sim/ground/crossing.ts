/** Finds where the sides of rings cross. Sides are looked at in the order of their west ends, each against those that reach beyond its own. */
import { MAP_LIMITS } from "./limits.ts";
import type { Point } from "./plane.ts";

/** Two sides that meet where they may not; a side is named by its ring and the number of its first corner. */
export interface Crossing {
  readonly one: { readonly ring: number; readonly side: number };
  readonly other: { readonly ring: number; readonly side: number };
  readonly at: Point;
}

interface Side { readonly ring: number; readonly side: number; readonly from: Point; readonly to: Point; readonly west: number; readonly east: number; readonly south: number; readonly north: number }

/**
 * The first place found where a ring meets itself (a touch too: what lies inside would be in doubt), or where two rings cross by more
 * than `MAP_LIMITS.touch`. Null when there is none.
 */
export function crossingOf(rings: readonly (readonly Point[])[]): Crossing | null {
  const sides = rings.flatMap((ring, r) => ring.map((from, i): Side => {
    const to = ring[(i + 1) % ring.length]!;
    return {
      ring: r, side: i, from, to,
      west: Math.min(from.x, to.x), east: Math.max(from.x, to.x), south: Math.min(from.y, to.y), north: Math.max(from.y, to.y),
    };
  }));
  sides.sort((a, b) => a.west - b.west);
  for (let i = 0; i < sides.length; i += 1) {
    const one = sides[i]!;
    for (let j = i + 1; j < sides.length; j += 1) {
      const other = sides[j]!;
      if (other.west > one.east) break;
      if (other.south > one.north || other.north < one.south) continue;
      const at = one.ring === other.ring ? ownMeeting(one, other, rings[one.ring]!.length) : crossed(one, other, MAP_LIMITS.touch);
      if (at) return { one: { ring: one.ring, side: one.side }, other: { ring: other.ring, side: other.side }, at };
    }
  }
  return null;
}

/** Where two sides of one ring meet; neighbours share a corner and are left out. */
function ownMeeting(one: Side, other: Side, corners: number): Point | null {
  const apart = Math.abs(one.side - other.side);
  if (apart <= 1 || apart === corners - 1) return null;
  return touched(one, other) ?? touched(other, one) ?? crossed(one, other, 0);
}

/** The end of `one` that lies on `other`, to the last bit. */
function touched(one: Side, other: Side): Point | null {
  for (const end of [one.from, one.to]) {
    const between = end.x >= other.west && end.x <= other.east && end.y >= other.south && end.y <= other.north;
    if (between && turn(other.from, other.to, end) === 0) return end;
  }
  return null;
}

/** Where two sides cross so that all four ends lie further than `least` (m) from the other's line. */
function crossed(one: Side, other: Side, least: number): Point | null {
  const [lengthOne, lengthOther] = [lengthOf(one), lengthOf(other)];
  const a = turn(other.from, other.to, one.from) / lengthOther;
  const b = turn(other.from, other.to, one.to) / lengthOther;
  const c = turn(one.from, one.to, other.from) / lengthOne;
  const d = turn(one.from, one.to, other.to) / lengthOne;
  const apart = (p: number, q: number) => (p > least && q < -least) || (p < -least && q > least);
  if (!apart(a, b) || !apart(c, d)) return null;
  const share = a / (a - b);
  return { x: one.from.x + share * (one.to.x - one.from.x), y: one.from.y + share * (one.to.y - one.from.y) };
}

const lengthOf = ({ from, to }: Side): number => Math.hypot(to.x - from.x, to.y - from.y);

/** Above zero where `point` lies left of the line. */
const turn = (from: Point, to: Point, point: Point): number => (to.x - from.x) * (point.y - from.y) - (to.y - from.y) * (point.x - from.x);
