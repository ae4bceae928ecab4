/** A plot as lines on the page: its rings, and its rows as they run. Metres become px by one scale for all plots of a map. */
import { spansAt, type Place, type Point } from "../../sim/ground/plane.ts";
import type { Plot } from "./plots.ts";

export interface Box { readonly west: number; readonly east: number; readonly south: number; readonly north: number }

export const ringsOf = ({ outline }: Plot): readonly (readonly Point[])[] => outline.parts.flatMap(({ outer, holes }) => [outer.points, ...holes.map(({ points }) => points)]);

export function boxOf(plot: Plot): Box {
  const points = ringsOf(plot).flat();
  const reach = (of: (point: Point) => number) => points.reduce(([least, most], point) => [Math.min(least, of(point)), Math.max(most, of(point))] as const, [Infinity, -Infinity] as const);
  const [west, east] = reach(({ x }) => x);
  const [south, north] = reach(({ y }) => y);
  return { west, east, south, north };
}

/** m across the plot, the longer way. */
export const spanOf = (plot: Plot): number => { const box = boxOf(plot); return Math.max(box.east - box.west, box.north - box.south); };

export type Line = readonly [from: Point, to: Point];

/** Lines along the rows, `apart` (m) from each other, cut off at every edge. */
export function rowLines(plot: Plot, bearing: number, apart: number): readonly Line[] {
  const angle = (bearing * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  // Turned so that rows lie level: along them x, across them y.
  const turned = ringsOf(plot).map((ring) => ring.map(({ x, y }): Point => ({ x: x * sin + y * cos, y: y * sin - x * cos })));
  const back = (x: number, y: number): Point => ({ x: x * sin - y * cos, y: x * cos + y * sin });
  const heights = turned.flat().map(({ y }) => y);
  const [least, most] = [heights.reduce((a, b) => Math.min(a, b)), heights.reduce((a, b) => Math.max(a, b))];
  const lines: Line[] = [];
  for (let y = least + apart / 2; y < most; y += apart) lines.push(...spansAt(turned, y).map(([from, to]): Line => [back(from, y), back(to, y)]));
  return lines;
}

/** Where a place lies on the plot's own plane. */
export const pointOf = ({ outline }: Plot, place: Place): Point => outline.plane.pointOf(place);

/** A length for the scale beside the drawings: 1, 2 or 5 of a power of ten, at most this much. */
export function roundBelow(length: number): number {
  const power = 10 ** Math.floor(Math.log10(length));
  return [5, 2, 1].map((figure) => figure * power).find((figure) => figure <= length) ?? power;
}

