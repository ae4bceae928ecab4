/** A round that was driven, without the small loops of a machine that stood, backed or turned on the spot, and of a receiver that strayed. */
import { crossingOf } from "./crossing.ts";
import { MAP_LIMITS } from "./limits.ts";
import type { Point } from "./plane.ts";

/** A corner of a round: itself, or the place where a loop was left out. */
export interface Corner { readonly point: Point; /** its number in the ring that was given; of the corner before, where a loop was left out */ readonly from: number }

/** The corners that stay, and how many loops were left out; what crosses itself otherwise stays crossed. */
export function withoutLoops(ring: readonly Point[]): { readonly corners: readonly Corner[]; readonly loops: number } {
  let corners: Corner[] = ring.map((point, from) => ({ point, from }));
  let loops = 0;
  while (loops < MAP_LIMITS.loops && corners.length > 3) {
    const crossing = crossingOf([corners.map(({ point }) => point)]);
    if (!crossing) break;
    const [first, second] = [crossing.one.side, crossing.other.side].sort((a, b) => a - b) as [number, number];
    const between = corners.slice(first + 1, second + 1);
    const about = [...corners.slice(second + 1), ...corners.slice(0, first + 1)];
    const isSmall = (loop: readonly Corner[]) => loop.every(({ point }) => Math.hypot(point.x - crossing.at.x, point.y - crossing.at.y) <= MAP_LIMITS.loop);
    const [loop, rest] = isSmall(between) ? [between, about] : [about, between];
    if (!isSmall(loop)) break;
    corners = [...rest, { point: crossing.at, from: rest.at(-1)!.from }];
    loops += 1;
  }
  return { corners, loops };
}
