/** What weighings tell of a day. Recorded and rehearsed days are read by the same rules, so that they can stand side by side. */
import { median, sampleStandardDeviation } from "simple-statistics";
import type { Day } from "../../harvest/daylog.ts";
import type { Ticket } from "./tickets.ts";

/** One load over the scale, recorded or rehearsed; times in s after midnight, mass in kg. */
export interface Weighing { readonly truck: string | number | null; readonly at: number; readonly out: number | null; readonly mass: number }

/** A time in which nobody works, s after midnight. */
export interface Pause { readonly at: number; readonly for: number }

/** What a scale would have printed on a rehearsed day, in the order of weighing. */
export const weighingsOf = ({ trips }: Day): Weighing[] =>
  trips.flatMap(({ truck, weighed, tipped, mass }) => (Number.isNaN(weighed) ? [] : [{ truck, at: weighed, out: Number.isNaN(tipped) ? null : tipped, mass }]))
    .sort((a, b) => a.at - b.at);

/** Many values in one figure; `sd` is that of the sample, null for a single value. */
export interface Spread { readonly n: number; readonly mean: number; readonly sd: number | null; readonly cv: number | null }

/** A stretch without a weighing, s after midnight; `worked`: without the pauses, s. */
export interface Gap { readonly from: number; readonly to: number; readonly worked: number }

export interface DayOfLoads {
  /** s after midnight */ readonly first: number;
  readonly last: number;
  readonly loads: number;
  readonly tonnes: number;
  /** both from the first weighing to the last, the first load left out; null with fewer than two */ readonly loadsPerHour: number | null;
  readonly tonnesPerHour: number | null;
  /** t/h as long as loads came without a gap of more than three usual ones: what the chopper gave at the least */ readonly steadyPace: number | null;
  /** t */ readonly load: Spread | null;
  /** min of work from one weighing of a truck to its next */ readonly cycle: Spread | null;
  /** min of work from weighing to leaving */ readonly stay: Spread | null;
  /** trucks at the storage, mean over the time from the first weighing to the last */ readonly atStorage: number | null;
  /** min of work between weighings */ readonly between: Spread | null;
  /** longest first, at most ten */ readonly gaps: readonly Gap[];
}

/** s: after so long without a load another day begins. Assumption of this project. */
const NEW_DAY = 5 * 3600;
/** A gap, a round or a stay of more than so many usual ones is no part of the usual. Assumption of this project. */
const UNUSUAL = 3;
const SHOWN_GAPS = 10;

const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0);

function spreadOf(values: readonly number[]): Spread | null {
  if (values.length === 0) return null;
  const mean = sum(values) / values.length;
  const sd = values.length > 1 ? sampleStandardDeviation(values as number[]) : null;
  return { n: values.length, mean, sd, cv: sd === null ? null : sd / mean };
}

/** The days of a list in the order of weighing, cut where nothing was weighed for five hours. */
export function daysIn<T extends Weighing>(weighings: readonly T[]): T[][] {
  const days: T[][] = [];
  let before = -Infinity;
  for (const weighing of weighings) {
    if (weighing.at - before > NEW_DAY) days.push([]);
    days.at(-1)!.push(weighing);
    before = weighing.at;
  }
  return days;
}

const DAY = 86_400;

/** Seconds of work between two instants; the pauses are those of every day. */
export function workedBetween(from: number, to: number, pauses: readonly Pause[]): number {
  let worked = to - from;
  for (let midnight = Math.floor(from / DAY) * DAY; midnight < to; midnight += DAY) {
    for (const pause of pauses) worked -= Math.max(0, Math.min(to, midnight + pause.at + pause.for) - Math.max(from, midnight + pause.at));
  }
  return worked;
}

/** The instant from which `work` seconds of work lead to this one; the pauses are those of every day, in their order. */
export function workBefore(instant: number, work: number, pauses: readonly Pause[]): number {
  let [to, left] = [instant, work];
  for (let midnight = Math.floor(instant / DAY) * DAY; left > 0; midnight -= DAY) {
    for (const pause of [...pauses].reverse()) {
      const end = Math.min(to, midnight + pause.at + pause.for);
      if (end <= midnight + pause.at) continue;
      if (to - end >= left) return to - left;
      left -= to - end;
      to = midnight + pause.at;
    }
    if (to - midnight >= left || midnight < 0) return to - left;
  }
  return to;
}

/** Every stretch between two weighings. */
export const gapsOf = (weighings: readonly Weighing[], pauses: readonly Pause[] = []): Gap[] =>
  weighings.slice(1).map(({ at }, i) => ({ from: weighings[i]!.at, to: at, worked: workedBetween(weighings[i]!.at, at, pauses) }));

/** Rounds of each truck, s of work; those of more than three usual ones are left out. */
export function roundsOf(weighings: readonly Weighing[], pauses: readonly Pause[] = []): number[] {
  const last = new Map<string | number, number>();
  const rounds: number[] = [];
  for (const { truck, at } of weighings) {
    if (truck === null) continue;
    const before = last.get(truck);
    if (before !== undefined && at > before) rounds.push(workedBetween(before, at, pauses));
    last.set(truck, at);
  }
  return usual(rounds);
}

/** Without those of more than three times the median. */
export function usual(values: readonly number[]): number[] {
  if (values.length === 0) return [];
  const most = UNUSUAL * median(values as number[]);
  return values.filter((value) => value <= most);
}

/** Seconds of work from the scale until the truck left, of those whose leaving is told. */
export const staysOf = (weighings: readonly Weighing[], pauses: readonly Pause[] = []): number[] =>
  weighings.flatMap(({ at, out }) => (out === null ? [] : [workedBetween(at, out, pauses)]));

/** Reads one day; `weighings` in their order, at least one. */
export function measureDay(weighings: readonly Weighing[], pauses: readonly Pause[] = []): DayOfLoads {
  const [first, last] = [weighings[0]!.at, weighings.at(-1)!.at];
  const masses = weighings.map(({ mass }) => mass);
  const all = gapsOf(weighings, pauses);
  const between = all.map(({ worked }) => worked);
  const hours = (last - first) / 3600;
  const steadyMost = UNUSUAL * (between.length > 0 ? median(between) : 0);
  const steady = all.flatMap(({ worked }, i) => (worked <= steadyMost ? [{ worked, mass: masses[i + 1]! }] : []));
  const steadyTime = sum(steady.map(({ worked }) => worked));
  const stays = staysOf(weighings, pauses);
  const minutes = (values: readonly number[]) => spreadOf(values.map((value) => value / 60));
  return {
    first, last, loads: weighings.length, tonnes: sum(masses) / 1000,
    loadsPerHour: hours > 0 ? (weighings.length - 1) / hours : null,
    tonnesPerHour: hours > 0 ? (sum(masses) - masses[0]!) / 1000 / hours : null,
    steadyPace: steadyTime > 0 ? (sum(steady.map(({ mass }) => mass)) / steadyTime) * 3.6 : null,
    load: spreadOf(masses.map((mass) => mass / 1000)),
    cycle: minutes(roundsOf(weighings, pauses)), stay: minutes(stays),
    atStorage: stays.length === weighings.length && last > first ? sum(staysOf(weighings)) / (Math.max(...weighings.map(({ out }) => out!)) - first) : null,
    between: minutes(between.filter((seconds) => seconds > 0)),
    gaps: [...all].sort((a, b) => b.worked - a.worked || a.from - b.from).slice(0, SHOWN_GAPS),
  };
}

/** Tonnes and loads of everyone named, the most first; `name` null for the tickets that name nobody. */
export interface Part { readonly name: string | null; readonly loads: number; readonly tonnes: number }

export function partsBy(tickets: readonly Ticket[], key: "owner" | "field" | "truck" | "storage"): Part[] {
  const parts = new Map<string | null, { loads: number; kg: number }>();
  for (const ticket of tickets) {
    const part = parts.get(ticket[key]) ?? { loads: 0, kg: 0 };
    parts.set(ticket[key], { loads: part.loads + 1, kg: part.kg + ticket.mass });
  }
  return [...parts].map(([name, { loads, kg }]) => ({ name, loads, tonnes: kg / 1000 })).sort((a, b) => b.tonnes - a.tonnes);
}
