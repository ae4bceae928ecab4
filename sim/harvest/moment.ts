/**
 * The day at one time of day: where every truck is, what lies where, who does what. Run first, replay after: everything that plays,
 * scrubs, steps or prints asks this pure function, and two callers asking for the same time see the same state.
 */
import type { Day, Lift, MachineState } from "./daylog.ts";
import { countUpTo, lastUpTo, shareDone, tallied, type Replay } from "./replay.ts";

/** What a truck's round is at; a break or a breakdown pauses it and does not change it. */
export const ROUND = ["in-line", "changeover", "filling", "loaded-road", "lane-line", "lane", "scale-line", "weighing", "place-line", "room-wait", "tipping", "empty-road", "parked"] as const;
export type Step = (typeof ROUND)[number];

export interface TruckMoment {
  /** index into `Day.machines` */ readonly machine: number;
  /** index into `Day.trips`; -1 before its first round and after its last */ readonly trip: number;
  readonly step: Step;
  /** what stops it in the middle of the step, or null */ readonly stopped: "break" | "broken" | null;
  /** the step began, s after midnight */ readonly since: number;
  /** share of the step's working time that is over, 0..1; 0 in a line, whose end nobody knows yet */ readonly progress: number;
  /** fresh kg in it */ readonly mass: number;
}

export interface ChopperMoment {
  readonly machine: number;
  /** null when its day is over */ readonly state: MachineState | null;
  readonly since: number;
  /** field it is in or last was in, -1 for none */ readonly field: number;
  /** trip it fills, -1 for none */ readonly trip: number;
}

export interface TractorMoment {
  readonly machine: number;
  readonly storage: number;
  /** null when its day is over */ readonly state: MachineState | null;
  readonly since: number;
}

export interface StorageMoment {
  /** fresh kg tipped so far */ readonly tipped: number;
  /** fresh kg that lie in front of it, not taken by a blade yet */ readonly apron: number;
  /** fresh kg taken off the apron and not laid yet */ readonly beingSpread: number;
  /** fresh kg on the clamp */ readonly laid: number;
  /** how many of its lifts lie complete, oldest first */ readonly lifts: number;
  /** the next lift is being spread: share of it that lies, else 0 */ readonly share: number;
  /** index into `Day.lifts` of the lift that is still rolled, -1 for none */ readonly open: number;
  /** share of the open lift's working time that is over */ readonly openShare: number;
  /** trucks (indices into `Moment.trucks`) waiting here, first in line first: on a tipping place without room, then in line */ readonly line: readonly number[];
}

export interface Moment {
  readonly time: number;
  readonly trucks: readonly TruckMoment[];
  readonly choppers: readonly ChopperMoment[];
  readonly tractors: readonly TractorMoment[];
  readonly storages: readonly StorageMoment[];
  /** fresh kg cut so far, by field */ readonly cut: readonly number[];
}

/** The state of everything at a time, s after midnight. Pure: neither the order nor the number of calls matters. */
export function momentAt(replay: Replay, time: number): Moment {
  const { day } = replay;
  const trucks = replay.trucks.map((truck) => truckAt(replay, truck.machine, truck.trips, time));
  const cut = replay.fields.map((tally) => tallied(tally, time));
  for (const { trip, step, mass } of trucks) if (step === "filling") cut[day.trips[trip]!.field]! += mass;
  const choppers: ChopperMoment[] = [];
  const tractors: TractorMoment[] = [];
  day.machines.forEach(({ kind, storage }, machine) => {
    if (kind === "truck") return;
    const now = stateAt(replay, machine, time);
    if (kind !== "chopper") tractors.push({ machine, storage: storage!, state: now.state, since: now.since });
    else choppers.push({ machine, ...now, trip: trucks.find((t) => t.trip >= 0 && t.step === "filling" && chopperOf(day, t.trip) === machine)?.trip ?? -1 });
  });
  return { time, trucks, choppers, tractors, storages: replay.storages.map((_, i) => storageAt(replay, i, trucks, time)), cut };
}

function truckAt(replay: Replay, machine: number, own: readonly number[], time: number): TruckMoment {
  const { trips, machines } = replay.day;
  const { state, since: stateSince } = stateAt(replay, machine, time);
  const stopped = state === "break" || state === "broken" ? state : null;
  const trip = own[lastUpTo(own, (i) => trips[i]!.arrived, time)] ?? -1;
  const t = trips[trip];
  if (!t || t.back <= time || time > machines[machine]!.until) {
    // Between rounds the trips say nothing: it stands in a line that it may leave without a load, drives from one chopper to the next, or is home.
    const step = state === "in-line" || state === "empty-road" ? state : "parked";
    return { machine, trip: -1, step, stopped, since: stateSince, progress: 0, mass: 0 };
  }
  const begins: readonly number[] = [
    t.arrived, t.alongside, t.fillFrom, t.filled, t.atLane, t.inLane, t.atScale, t.weighFrom, t.weighed, t.atStorage, t.placed, t.tipFrom, t.tipped,
  ];
  // A step that never came is NaN and compares false; of several that begin together the last one holds.
  let at = 0;
  for (let i = 1; i < begins.length; i++) if (begins[i]! <= time) at = i;
  const step = STEPS_BEGUN[at]!;
  const since = begins[at]!;
  const until = begins[at + 1] ?? t.back;
  const filling = step === "filling";
  const progress = WORKS.has(step) ? shareDone(replay, filling ? chopperOf(replay.day, trip) : machine, since, until, time, filling) : 0;
  const mass = filling ? t.mass * progress : step === "tipping" ? t.mass * (1 - progress) : since >= t.filled && step !== "empty-road" ? t.mass : 0;
  return { machine, trip, step, stopped, since, progress, mass };
}

/** What begins at each of a trip's times, in the order of the round; what is weighed is on its way to the tipping place at once. */
const STEPS_BEGUN: readonly Step[] = [
  "in-line", "changeover", "filling", "loaded-road", "lane-line", "lane", "scale-line", "weighing", "place-line", "place-line", "room-wait", "tipping", "empty-road",
];
/** Steps that take working time of their own; the others wait for somebody. */
const WORKS: ReadonlySet<Step> = new Set<Step>(["changeover", "filling", "loaded-road", "lane", "weighing", "tipping", "empty-road"]);

function storageAt(replay: Replay, index: number, trucks: readonly TruckMoment[], time: number): StorageMoment {
  const { trips, lifts } = replay.day;
  const { lifts: own, tipped: tippedTally, taken, laid: laidTally } = replay.storages[index]!;
  let tipped = tallied(tippedTally, time);
  const waiting: number[] = [];
  trucks.forEach((truck, i) => {
    if (truck.trip < 0 || trips[truck.trip]!.storage !== index) return;
    if (truck.step === "tipping") tipped += trips[truck.trip]!.mass - truck.mass;
    if (truck.step === "room-wait" || truck.step === "place-line") waiting.push(i);
  });
  const standing = (i: number) => trips[trucks[i]!.trip]!;
  const line = waiting.sort((a, b) => Number(trucks[a]!.step === "place-line") - Number(trucks[b]!.step === "place-line")
    || standing(a).atStorage - standing(b).atStorage || a - b);

  const complete = countUpTo(laidTally.time, time);
  const next = lifts[own[complete] ?? -1];
  const share = next && next.spreadFrom <= time ? spreadShare(replay, index, next, time) : 0;
  const takenOff = tallied(taken, time);
  const lying = tallied(laidTally, time);
  const laid = lying + share * (next?.mass ?? 0);
  const top = own[complete - 1] ?? -1;
  const open = top >= 0 && !(lifts[top]!.closed <= time) ? top : -1;
  return {
    tipped, apron: tipped - takenOff, beingSpread: takenOff - laid, laid, lifts: complete, share, line, open,
    openShare: open < 0 ? 0 : shareDone(replay, -1, lifts[open]!.opened, lifts[open]!.closed, time, false),
  };
}

/** Blades push only while one of them is not broken: the first of the crew keeps the time. */
function spreadShare(replay: Replay, storage: number, lift: Lift, time: number): number {
  const blade = replay.day.machines.findIndex((m) => m.kind === "blade" && m.storage === storage);
  return shareDone(replay, blade, lift.spreadFrom, lift.opened, time, false);
}

/** What a machine does, and the last field or storage its log names; no state before its first entry and after its day is over. */
function stateAt(replay: Replay, machine: number, time: number): { state: MachineState | null; since: number; field: number } {
  const track = replay.tracks[machine]!;
  const { until } = replay.day.machines[machine]!;
  const row = countUpTo(track.time, time) - 1;
  let field = -1;
  for (let i = row; i >= 0 && field < 0; i--) field = track.place[i]!;
  if (row < 0 || time > until) return { state: null, since: row < 0 ? replay.day.from : until, field };
  const pause = replay.breaks.find((b) => b.at <= time && time < b.at + b.for);
  return pause ? { state: "break", since: pause.at, field } : { state: track.state[row]!, since: track.time[row]!, field };
}

function chopperOf(day: Day, trip: number): number {
  return day.machines.findIndex((m) => m.kind === "chopper" && m.index === day.trips[trip]!.chopper);
}

