/**
 * Where each truck is over the day, as one line: field at the bottom, road, storage at the top. The road is in metres, so that slope is speed;
 * lines to stand in and places of work are levels below and above it, a fixed step apart.
 */
import type { MachineState, Trip } from "../sim/harvest/daylog.ts";
import { shareDone, type Pause, type Replay } from "../sim/harvest/replay.ts";
import type { Scenario } from "../sim/scenario/types.ts";

/** A stretch of a truck's line, straight from (from, low) to (until, high). */
export interface Stretch {
  /** s after midnight */ readonly from: number;
  readonly until: number;
  /** heights at its ends, m */ readonly y0: number;
  readonly y1: number;
  /** waits for somebody; is filled, weighed or tips; drives; or is stopped on its way by a break or a breakdown */ readonly does: "wait" | "work" | "drive" | "stop";
}

/** Heights of the levels, m, for one distance of road. */
export interface Levels { readonly fill: number; readonly wait: number; readonly gate: number; readonly storage: number; readonly scale: number; readonly queue: number; readonly tip: number }

/** @param step m of height from one level to the next */
export function levelsAt(scenario: Scenario, distance: number, step: number): Levels {
  const storage = Math.max(...scenario.fields.map((field) => field.distance));
  const gate = storage - distance;
  const queue = storage + step * (scenario.weighing ? 2 : 1);
  return { fill: gate - 2 * step, wait: gate - step, gate, storage, scale: storage + step, queue, tip: queue + step };
}

/** The line of one truck, in order of time; `truck` is an index into `replay.trucks`. */
export function truckLine(replay: Replay, scenario: Scenario, truck: number, step: number): Stretch[] {
  const { day } = replay;
  const { machine, trips } = replay.trucks[truck]!;
  const line: Stretch[] = [];
  const put = (from: number, until: number, y0: number, y1: number, does: Stretch["does"]) => {
    // A step that never came is NaN, and what was before the day is not drawn.
    if (until > Math.max(from, day.from)) line.push({ from: Math.max(from, day.from), until, y0, y1, does });
  };
  const drive = (from: number, until: number, y0: number, y1: number) => {
    const at = (time: number) => y0 + (y1 - y0) * shareDone(replay, machine, from, until, time, false);
    let left = from;
    for (const stop of stopsOf(replay, machine, from, until)) {
      put(left, stop.from, at(left), at(stop.from), "drive");
      put(stop.from, stop.until, at(stop.from), at(stop.from), stop.state === "lane" ? "wait" : "stop");
      left = stop.until;
    }
    put(left, until, at(left), y1, "drive");
  };
  trips.forEach((index, k) => {
    const trip = day.trips[index]!;
    const { distance } = scenario.fields[trip.field]!;
    const { fill, wait, gate, storage, scale, queue, tip } = levelsAt(scenario, distance, step);
    const next = day.trips[trips[k + 1] ?? -1];
    const lane = scenario.lane ? storage - Math.min(distance, scenario.lane.length) : storage;
    put(trip.arrived, trip.alongside, wait, wait, "wait");
    put(trip.alongside, trip.filled, fill, fill, "work");
    drive(trip.filled, trip.atLane, gate, lane);
    put(trip.atLane, trip.inLane, lane, lane, "wait");
    drive(trip.inLane, trip.atScale, lane, storage);
    put(trip.atScale, trip.weighFrom, scale, scale, "wait");
    put(trip.weighFrom, trip.weighed, scale, scale, "work");
    put(trip.atStorage, trip.placed, queue, queue, "wait");
    put(trip.placed, trip.tipFrom, tip, tip, "wait");
    put(trip.tipFrom, trip.tipped, tip, tip, "work");
    drive(trip.tipped, trip.back, storage, next ? levelsAt(scenario, scenario.fields[next.field]!.distance, step).gate : gate);
  });
  return line;
}

/** Height of a line at a time, m, and what it does there; null outside its stretches. */
export function onLine(line: readonly Stretch[], time: number): { readonly y: number; readonly does: Stretch["does"] } | null {
  const stretch = line.findLast(({ from, until }) => from <= time && time <= until);
  if (!stretch) return null;
  const { from, until, y0, y1, does } = stretch;
  return { y: y0 + ((y1 - y0) * (time - from)) / (until - from), does };
}

/** s that a truck waited in a trip, breaks left out. */
export function waitedIn(trip: Trip, breaks: readonly Pause[]): number {
  const waits = [[trip.arrived, trip.alongside], [trip.atLane, trip.inLane], [trip.atScale, trip.weighFrom], [trip.atStorage, trip.tipFrom]] as const;
  return waits.reduce((sum, [from, until]) => sum + (until > from ? until - from - pausedIn(breaks, from, until) : 0), 0);
}

function pausedIn(breaks: readonly Pause[], from: number, until: number): number {
  return breaks.reduce((sum, pause) => sum + Math.max(0, Math.min(until, pause.at + pause.for) - Math.max(from, pause.at)), 0);
}

/** From when until when a machine was in a state, breaks cut out. */
export function spellsOf(replay: Replay, machine: number, state: MachineState): { readonly from: number; readonly until: number }[] {
  const track = replay.tracks[machine]!;
  const { until: home } = replay.day.machines[machine]!;
  return track.time.flatMap((from, i) => {
    const until = Math.min(home, track.time[i + 1] ?? home);
    if (track.state[i] !== state || !(until > from)) return [];
    const inside = replay.breaks.filter((pause) => pause.at < until && pause.at + pause.for > from);
    const ends = [from, ...inside.flatMap((pause) => [pause.at, pause.at + pause.for]), until];
    return inside.length === 0 ? [{ from, until }] : Array.from({ length: ends.length / 2 }, (_, k) => ({ from: ends[2 * k]!, until: ends[2 * k + 1]! })).filter((spell) => spell.until > spell.from);
  });
}

/** What stops a truck on its way between two times, in order, breaks and breakdowns that overlap joined. */
function stopsOf(replay: Replay, machine: number, from: number, until: number): { from: number; until: number; state: MachineState }[] {
  const track = replay.tracks[machine]!;
  const lost = track.time.flatMap((time, i) => {
    const state = track.state[i]!;
    return state === "broken" || state === "lane" ? [{ from: time, until: track.time[i + 1] ?? until, state }] : [];
  });
  const pauses = replay.breaks.map((pause) => ({ from: pause.at, until: pause.at + pause.for, state: "break" as MachineState }));
  const stops: { from: number; until: number; state: MachineState }[] = [];
  for (const stop of [...lost, ...pauses].filter((each) => each.from < until && each.until > from).sort((a, b) => a.from - b.from)) {
    const last = stops.at(-1);
    const begins = Math.max(from, stop.from, last?.until ?? from);
    const ends = Math.min(until, stop.until);
    if (ends > begins) stops.push({ from: begins, until: ends, state: stop.state });
  }
  return stops;
}
