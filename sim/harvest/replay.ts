/** A day made ready for replaying: sorted once, so that any time of it can be asked for at every frame. */
import type { Day, MachineState, StateLog, Trip } from "./daylog.ts";

/** A pause that everybody takes: s after midnight, and s long. */
export interface Pause { readonly at: number; readonly for: number }

/** One machine's state changes in order of time, and the seconds it had lost by each: broken down, or waiting to be let into the lane. */
export interface Track { readonly time: number[]; readonly state: MachineState[]; readonly place: number[]; readonly lost: number[] }

/** Loads in order of the time they were complete, and kg complete by then. */
export interface Tally { readonly time: number[]; readonly mass: number[] }

/** A day made ready for asking; see `replayOf`. */
export interface Replay {
  readonly day: Day;
  readonly breaks: readonly Pause[];
  readonly trucks: readonly { readonly machine: number; readonly trips: readonly number[] }[];
  readonly storages: readonly { readonly lifts: readonly number[]; readonly tipped: Tally; readonly taken: Tally; readonly laid: Tally }[];
  readonly fields: readonly Tally[];
  readonly tracks: readonly Track[];
}

/**
 * Sorts a day once, so that `momentAt` may be asked at every frame.
 * @param breaks the shift's breaks: the log books them, it does not list them
 * @throws RangeError when the day was run without its list of state changes
 */
export function replayOf(day: Day, breaks: readonly Pause[]): Replay {
  if (!day.states) throw new RangeError("This day was run without its list of state changes: there is nothing to replay. Run it with the state log on.");
  const { trips, lifts, machines } = day;
  const ofTrips = (keep: (trip: Trip) => boolean) => trips.map((_, i) => i).filter((i) => keep(trips[i]!));
  return {
    day,
    breaks: [...breaks].sort((a, b) => a.at - b.at),
    trucks: machines.flatMap((m, machine) => (m.kind === "truck"
      ? [{ machine, trips: ofTrips((t) => t.truck === machine).sort((a, b) => trips[a]!.arrived - trips[b]!.arrived) }]
      : [])),
    storages: day.plannedDepth.map((_, storage) => {
      const own = lifts.map((_, i) => i).filter((i) => lifts[i]!.storage === storage).sort((a, b) => lifts[a]!.spreadFrom - lifts[b]!.spreadFrom);
      const mass = (i: number) => lifts[i]!.mass;
      return {
        lifts: own,
        tipped: tallyOf(ofTrips((t) => t.storage === storage), (i) => trips[i]!.tipped, (i) => trips[i]!.mass, own.reduce((sum, i) => sum + (lifts[i]!.trip < 0 ? lifts[i]!.mass : 0), 0)),
        taken: tallyOf(own, (i) => lifts[i]!.spreadFrom, mass),
        laid: tallyOf(own, (i) => lifts[i]!.opened, mass),
      };
    }),
    fields: day.uncut.map((_, field) => tallyOf(ofTrips((t) => t.field === field && t.filled > day.from), (i) => trips[i]!.filled, (i) => trips[i]!.mass, day.start?.fields[field]?.taken)),
    tracks: tracksOf(day.states, machines.length),
  };
}

/** The nearest time after (way 1) or before (way -1) at which some machine changes what it does; the ends of the day stop it. */
export function nextChange({ day }: Replay, time: number, way: 1 | -1): number {
  const changes = day.states!.time;
  if (way === 1) return changes[countUpTo(changes, time)] ?? day.until;
  let i = countUpTo(changes, time) - 1;
  while (i >= 0 && changes[i]! >= time) i--;
  return changes[i] ?? day.from;
}

/** Share of the working time between two times that is over; a chopper fills only while it cuts. */
export function shareDone(replay: Replay, machine: number, from: number, until: number, time: number, cutting: boolean): number {
  if (!(until > from)) return 0;
  if (time >= until) return 1;
  const worked = cutting ? cuttingBetween : workingBetween;
  const whole = worked(replay, machine, from, until);
  const over = whole > 0 ? worked(replay, machine, from, time) / whole : (time - from) / (until - from);
  return Math.min(1, Math.max(0, over));
}

function workingBetween(replay: Replay, machine: number, from: number, until: number): number {
  const track = replay.tracks[machine];
  const lost = track ? lostBy(track, until) - lostBy(track, from) : 0;
  return until - from - pausedBetween(replay.breaks, from, until) - lost;
}

function cuttingBetween(replay: Replay, machine: number, from: number, until: number): number {
  const track = replay.tracks[machine]!;
  let cut = 0;
  for (let i = Math.max(0, countUpTo(track.time, from) - 1); i < track.time.length && track.time[i]! < until; i++) {
    if (track.state[i] !== "cutting") continue;
    const a = Math.max(from, track.time[i]!);
    const b = Math.min(until, track.time[i + 1] ?? until);
    cut += b - a - pausedBetween(replay.breaks, a, b);
  }
  return cut;
}

function pausedBetween(breaks: readonly Pause[], from: number, until: number): number {
  let paused = 0;
  for (const pause of breaks) paused += Math.max(0, Math.min(until, pause.at + pause.for) - Math.max(from, pause.at));
  return paused;
}

const isLost = (state: MachineState | undefined): boolean => state === "broken" || state === "lane";

function lostBy(track: Track, time: number): number {
  const i = countUpTo(track.time, time) - 1;
  if (i < 0) return 0;
  return track.lost[i]! + (isLost(track.state[i]) ? time - track.time[i]! : 0);
}

function tracksOf(states: StateLog, machines: number): Track[] {
  const tracks = Array.from({ length: machines }, (): Track => ({ time: [], state: [], place: [], lost: [] }));
  states.time.forEach((time, row) => {
    const track = tracks[states.machine[row]!]!;
    const last = track.time.length - 1;
    track.lost.push(last < 0 ? 0 : track.lost[last]! + (isLost(track.state[last]) ? time - track.time[last]! : 0));
    track.time.push(time);
    track.state.push(states.state[row]!);
    track.place.push(states.place[row]!);
  });
  return tracks;
}

/** Steps that never came have no time and are left out; `before` was there when the day started. */
function tallyOf(rows: readonly number[], timeOf: (row: number) => number, massOf: (row: number) => number, before = 0): Tally {
  const done = rows.filter((row) => !Number.isNaN(timeOf(row))).sort((a, b) => timeOf(a) - timeOf(b));
  let sum = before;
  const tally = { time: done.map(timeOf), mass: done.map((row) => (sum += massOf(row))) };
  return before > 0 ? { time: [-Infinity, ...tally.time], mass: [before, ...tally.mass] } : tally;
}

export function tallied(tally: Tally, time: number): number {
  return tally.mass[countUpTo(tally.time, time) - 1] ?? 0;
}

/** How many of these rising times are at or before this one. */
export function countUpTo(times: readonly number[], time: number): number {
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (times[middle]! <= time) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Position of the last row whose time is at or before this one, -1 for none. */
export function lastUpTo(rows: readonly number[], timeOf: (row: number) => number, time: number): number {
  let low = 0;
  let high = rows.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeOf(rows[middle]!) <= time) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
