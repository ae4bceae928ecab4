/** Tonnes tipped and tonnes laid on the clamp, running over the day: straight between the start and the end of each tip and each spreading. */
import type { Day } from "../sim/harvest/daylog.ts";

export interface CurvePoint { /** s after midnight */ readonly time: number; /** fresh kg */ readonly mass: number }

export interface Curves { readonly tipped: readonly CurvePoint[]; readonly packed: readonly CurvePoint[] }

/** The two curves of one storage, or of all together. What lies between them is on the apron or being spread. */
export function curvesOf(day: Day, storage: number | null): Curves {
  const here = (item: { readonly storage: number }) => storage === null || item.storage === storage;
  return {
    tipped: accumulate(day, day.trips.filter((trip) => here(trip) && !Number.isNaN(trip.tipped)).map((trip) => [trip.tipFrom, trip.tipped, trip.mass])),
    packed: accumulate(day, day.lifts.filter(here).map((lift) => [lift.spreadFrom, lift.opened, lift.mass])),
  };
}

/** Sums ramps (from, until, kg) that may overlap; a ramp without length is a step. */
function accumulate(day: Day, ramps: readonly (readonly [number, number, number])[]): CurvePoint[] {
  const bends = ramps.flatMap(([from, until, mass]) => {
    const rate = mass / Math.max(until - from, 1e-6);
    return [{ time: from, rate }, { time: Math.max(until, from + 1e-6), rate: -rate }];
  }).sort((a, b) => a.time - b.time);
  const points: CurvePoint[] = [{ time: day.from, mass: 0 }];
  let rate = 0;
  let mass = 0;
  let time = day.from;
  for (const bend of bends) {
    mass += rate * (bend.time - time);
    time = bend.time;
    rate += bend.rate;
    if (points.at(-1)!.time === time) points.pop();
    points.push({ time, mass });
  }
  points.push({ time: day.until, mass });
  return points;
}

/** The height of a curve at a time, kg. */
export function heightAt(points: readonly CurvePoint[], time: number): number {
  let low = 0;
  let high = points.length - 1;
  if (time <= points[low]!.time) return points[low]!.mass;
  if (time >= points[high]!.time) return points[high]!.mass;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (points[middle]!.time <= time) low = middle;
    else high = middle;
  }
  const a = points[low]!;
  const b = points[high]!;
  return a.mass + ((b.mass - a.mass) * (time - a.time)) / (b.time - a.time);
}

/** s after midnight at which a curve first stands so high, kg; the end of the day when it never does. */
export function timeWhen(points: readonly CurvePoint[], mass: number): number {
  let low = 0;
  let high = points.length - 1;
  if (mass <= points[low]!.mass) return points[low]!.time;
  if (mass > points[high]!.mass) return points[high]!.time;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (points[middle]!.mass < mass) low = middle;
    else high = middle;
  }
  const a = points[low]!;
  const b = points[high]!;
  return a.time + ((b.time - a.time) * (mass - a.mass)) / (b.mass - a.mass);
}

/** The gap between the curves at a time: what waits, kg, and how long ago, s, what is laid last was tipped. */
export function gapAt({ tipped, packed }: Curves, time: number): { readonly mass: number; readonly ago: number } {
  const laid = heightAt(packed, time);
  // Within a kilogram nothing waits: the curves are sums of many loads.
  const mass = heightAt(tipped, time) - laid;
  return mass < 1 ? { mass: 0, ago: 0 } : { mass, ago: Math.max(0, time - timeWhen(tipped, laid)) };
}
