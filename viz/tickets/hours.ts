/** A day's tickets by the hour of the clock, and the stretches in it that stand out. */
import { median } from "simple-statistics";
import { gapsOf, type Gap, type Pause, type Weighing } from "../../sim/study/tickets/loads.ts";

export interface HourOfLoads { /** s after midnight */ readonly from: number; readonly loads: number; /** kg */ readonly mass: number }

const HOUR = 3600;
/** As in the means: a gap of more than so many usual ones is no part of the usual. Assumption of this project. */
const UNUSUAL = 3;

/** Every hour from the first load to the last, those without one included. */
export function byHour(weighings: readonly Weighing[]): HourOfLoads[] {
  const [first, last] = [weighings[0], weighings.at(-1)];
  if (!first || !last) return [];
  const from = Math.floor(first.at / HOUR);
  const hours = Array.from({ length: Math.floor(last.at / HOUR) - from + 1 }, (_, i) => ({ from: (from + i) * HOUR, loads: 0, mass: 0 }));
  for (const { at, mass } of weighings) {
    const hour = hours[Math.floor(at / HOUR) - from]!;
    hour.loads += 1;
    hour.mass += mass;
  }
  return hours;
}

/** Stretches without a load that are longer than three usual ones, in the order of the day. */
export function gapsThatStandOut(weighings: readonly Weighing[], pauses: readonly Pause[]): Gap[] {
  const gaps = gapsOf(weighings, pauses);
  if (gaps.length === 0) return [];
  const most = UNUSUAL * median(gaps.map(({ worked }) => worked));
  return gaps.filter(({ worked }) => worked > most);
}
