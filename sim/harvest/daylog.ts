/**
 * What a rehearsed day leaves behind. Two small tables, trips and lifts, and the machines' state totals: every measure reads
 * only these. Times are seconds after midnight on the wall clock, masses kg, unless a name says otherwise.
 * The list of state changes is optional and columnar; the page replays it.
 */

import type { DayStart } from "./start.ts";

/** One truck's round: from joining the line at the chopper to joining the next one. NaN marks a step that never came. */
export interface Trip {
  /** index into `Day.machines` */ readonly truck: number;
  /** index into the scenario's choppers */ readonly chopper: number;
  /** index into the scenario's fields */ readonly field: number;
  /** index into the scenario's storages */ readonly storage: number;
  /** fresh kg */ mass: number;
  /** kg of dry matter */ dryMass: number;
  /** joined the line at the chopper */ arrived: number;
  /** alongside, changeover begins */ alongside: number;
  /** the first crop falls into it */ fillFrom: number;
  /** full (or the field is done), leaves the field */ filled: number;
  /** at the single-lane stretch, loaded, and let in; equal to each other and to `atScale` when there is none */ atLane: number;
  inLane: number;
  /** joined the line at the scale; equal to `weighed` when there is none */ atScale: number;
  weighFrom: number;
  weighed: number;
  /** joined the line for a tipping place */ atStorage: number;
  /** got the tipping place, may still wait for room on the apron */ placed: number;
  tipFrom: number;
  /** empty, leaves the storage */ tipped: number;
  /** joined the line at the next chopper, or is home; NaN while never */ back: number;
}

/** What one load became on the clamp. Density is not here: it depends on the final depth. */
export interface Lift {
  /** index into the scenario's storages */ readonly storage: number;
  /** index into `Day.trips` of the load it was made of; -1 for what lay in the storage or on the apron when the day started */ readonly trip: number;
  readonly mass: number;
  readonly dryMass: number;
  /** m, loose layer as spread */ readonly layer: number;
  /** the blades begin to push it */ readonly spreadFrom: number;
  /** it lies: rolling counts from here */ readonly opened: number;
  /** the next lift lies on it, or the day's finish is over */ closed: number;
  /** seconds of true rolling by each tractor of the storage's crew, in the crew's order */ readonly rolled: Float64Array;
}

export type MachineKind = "chopper" | "truck" | "blade" | "roller";

/** States by kind of machine; every second of a machine's attendance is in exactly one. */
export const STATES = {
  chopper: ["cutting", "turning", "changeover", "waiting", "moving", "broken", "break"],
  truck: ["in-line", "filling", "loaded-road", "lane", "scale-line", "weighing", "place-line", "room-wait", "tipping", "empty-road", "broken", "break"],
  blade: ["pushing", "rolling", "standing", "broken", "break"],
  roller: ["rolling", "standing", "broken", "break"],
} as const satisfies Record<MachineKind, readonly string[]>;
export type MachineState = (typeof STATES)[MachineKind][number];

/** One machine over the day. */
export interface MachineDay {
  readonly name: string;
  readonly kind: MachineKind;
  /** index within its kind's list in the scenario (chopper, truck kind; for tractors within the storage's crew) */ readonly index: number;
  /** storage it works at (tractors), else null */ readonly storage: number | null;
  /** attendance: from, to */ readonly from: number;
  until: number;
  /** seconds by state; adds up to `until - from` */ readonly seconds: Partial<Record<MachineState, number>>;
  loads: number;
  /** fresh kg cut, hauled or pushed; 0 for a roller */ mass: number;
}

/** Why a chopper stood: seconds by cause, one row a chopper. */
export const WAIT_CAUSES = ["hauling", "weighing", "tipping", "spreading", "packing"] as const;
export type WaitCause = (typeof WAIT_CAUSES)[number];

/** The crew of a storage as it stands from a moment on; the first row is the start. */
export interface CrewChange {
  readonly storage: number;
  readonly at: number;
  /** share of the full crew's packing rate at target; 1 = everybody there, 0 = no blade */ readonly pays: number;
}

/** Something worth telling that is not a trip or a lift. */
export type DayEvent =
  | { readonly kind: "storage-full"; readonly at: number; readonly storage: number; readonly turnedTo: number | null }
  | { readonly kind: "shift-end"; readonly at: number; readonly chopper: number }
  | { readonly kind: "field-done"; readonly at: number; readonly field: number; readonly chopper: number }
  | { readonly kind: "breakdown"; readonly at: number; readonly machine: number; readonly until: number };

/** Columnar list of state changes: row i says that from `time[i]` on `machine[i]` is in `state[i]`. */
export interface StateLog {
  readonly time: number[];
  /** index into `Day.machines` */ readonly machine: number[];
  readonly state: MachineState[];
  /** field or storage index the state is at, -1 for none */ readonly place: number[];
  /** index into `Day.trips`, -1 for none */ readonly load: number[];
}

export interface Day {
  readonly trips: Trip[];
  readonly lifts: Lift[];
  readonly machines: MachineDay[];
  readonly crew: CrewChange[];
  /** chopper -> cause -> seconds stood */ readonly chopperWaits: Record<WaitCause, number>[];
  readonly events: DayEvent[];
  /** fresh kg left standing, by field */ readonly uncut: number[];
  /** shift start, or the time it was taken up at, and the moment the last machine was done */ readonly from: number;
  until: number;
  /** planned mean depth by storage, m, fixed before the day */ readonly plannedDepth: number[];
  readonly states: StateLog | null;
  /** steps that the simulation took: the same for the same day, however fast it runs */ readonly steps: number;
  /** where it started from; absent for the morning */ readonly start?: DayStart;
}
