/** How many machines find room on the wedge, and what their rolling comes to. */
import { steepestSlope } from "../safety.ts";
import type { Range, Sourced } from "../sourced.ts";
import { capacityOf } from "./body.ts";
import { frontRun } from "./shape.ts";
import type { Shape } from "./shape.ts";
import { steepenedRun, wedgeSurface } from "./wedge.ts";

/** Width of the wedge that one machine wants, with a tractor of the usual width. */
export const laneWidth: Sourced = { value: 4.5, unit: "m", source: "no figure found in print", mark: "assumption of this project" };

/** The tractor meant by that: the rest of the lane is what it keeps clear of its neighbour and the wall, and a wider one wants the same beside it. */
export const usualTractorWidth: Sourced = { value: 2.5, unit: "m", source: "no figure found in print", mark: "assumption of this project" };

/** Share of the whole fill that lies on the first wedge, where one machine works. */
export const firstWedgeShare: Sourced = { value: 0.12, unit: "1", source: "no figure found in print", mark: "assumption of this project" };

/** Pace at which tractors roll. */
export const rollingSpeed: Sourced<Range> = { value: [2, 4], unit: "km/h", source: "trade press on packing", mark: "published", range: [2, 4] };

/** How often every layer should be covered by wheels: once at least, twice is better. */
export const coversWanted: Sourced = { value: 2, unit: "full covers", source: "trade press on packing", mark: "published", range: [1, 2] };

/**
 * Machines that can roll the wedge side by side, at least 1: as many as have their lane across its mean width, and one as long as the first wedge is
 * being built. A storage under twice the tractor's width never takes more than one.
 * @param machineWidth m, of the widest @param whole m3 that will lie when all is in; the capacity when it is not known
 */
export function roomFor(shape: Shape, volumeSoFar: number, machineWidth: number, whole = capacityOf(shape)): number {
  if (volumeSoFar < firstWedgeShare.value * whole) return 1;
  const { width } = wedgeSurface(shape, volumeSoFar);
  const lane = Math.max(laneWidth.value, machineWidth + laneWidth.value - usualTractorWidth.value);
  return Math.max(1, Math.floor(width / lane + 1e-9));
}

/** What share of its rolling each of so many machines really gets in: those for whom there is no room take turns (assumption of this project). */
export function shareThatCounts(machines: number, room: number): number {
  return machines > room ? room / machines : 1;
}

/** A sentence when there are more machines than the wedge has room for; null when all count in full. */
export function crowdingNote(machines: number, room: number): string | null {
  if (machines <= room) return null;
  return `${machines} tractors are on a wedge with room for ${room}: they take turns, and together their rolling counts as that of ${room}.`;
}

/** One machine's rolling. */
export interface Rolling {
  /** m/s */ readonly speed: number;
  /** m that its wheels roll at once */ readonly width: number;
  /** s of real rolling */ readonly seconds: number;
}

/** How often each spot of each layer was under a wheel, on the average: sum of speed x width x time over the area of all layers. */
export function passesOver(rolling: readonly Rolling[], layerArea: number, layers: number): number {
  const rolled = rolling.reduce((sum, { speed, width, seconds }) => sum + speed * width * seconds, 0);
  return rolled / (layerArea * layers);
}

/** A sentence when so much forage (m3), laid in a hurry without moving the toe on, makes the wedge steeper than is advised; null when it does not. */
export function hurryNote(shape: Shape, volumeSoFar: number, added: number): string | null {
  const run = steepenedRun(shape, volumeSoFar, added);
  const [shown, now, limit] = [run, frontRun(shape), steepestSlope.value].map((slope) => Number(slope.toFixed(1))) as [number, number, number];
  if (shown >= limit || shown >= now) return null;
  const what = shown > 0 ? `a wedge of 1:${now} becomes one of 1:${shown}` : "the front would have to stand upright";
  return `If this is laid without pushing the foot of the wedge on, ${what}; steeper than 1:${limit} a tractor may slide or roll over and packs little.`;
}
