/** The state that a day starts from. The usual one is the morning: nothing cut, nothing tipped, everybody there. */
import type { MachineKind } from "./daylog.ts";
import type { Load } from "./load.ts";

/** Forage that lies in a storage already, packed. */
export interface PastLift extends Load {
  /** m, loose layer as spread */ readonly layer: number;
  /** kg DM/m3 by the relation at the planned depth; what no packing already gives is the least it can be */ readonly density: number;
}

export interface FieldStart {
  /** fresh kg taken off it */ readonly taken: number;
  /** share of the crop that still stands; null when only what was taken is known: then the rest of what the day's yield comes to stands */
  readonly left: number | null;
}

export interface StorageStart {
  /** oldest first; the last one lies open and is rolled on */ readonly lifts: readonly PastLift[];
  /** tipped and ready to be spread, oldest first */ readonly apron: readonly Load[];
}

/** A load filled and not tipped yet. */
export interface RoadLoad extends Load {
  /** index into the scenario's fields */ readonly field: number;
  /** index into the scenario's storages */ readonly storage: number;
}

/** A machine by its name in the log; blades and rollers are both tractors. A plan that has no such machine is none the worse. */
export interface Machinery { readonly kind: Exclude<MachineKind, "blade" | "roller"> | "tractor"; readonly name: string }

/**
 * Where things stand at a time of the day. What was cut, tipped and laid before is in it and not among the trips of the day that starts
 * from it. Where nobody says otherwise (all assumptions of this project):
 * - trucks stand empty at the choppers; loads under way are in the first trucks that are there, spread evenly along the road, before the lane and the scale;
 * - a field that was begun is cut on first, from a row's end, by the first chopper that may cut it and has none yet;
 * - a machine that comes later is at its place in that moment.
 */
export interface DayStart {
  /** s after midnight, within the shift; null for its start */ readonly at: number | null;
  /** by field of the scenario; none taken from those left out */ readonly fields: readonly FieldStart[];
  /** by storage of the scenario; bare where left out */ readonly storages: readonly StorageStart[];
  readonly onTheRoad: readonly RoadLoad[];
  /** machines that are not there at the start */ readonly away: readonly (Machinery & { /** s after midnight, or null for the whole day */ readonly until: number | null })[];
  /** trucks that go home after the load they have at that time, s after midnight */ readonly sentHome: readonly { readonly name: string; readonly at: number }[];
}

/** The usual start. */
export const MORNING: DayStart = { at: null, fields: [], storages: [], onTheRoad: [], away: [], sentHome: [] };

/** Share of the way that lies ahead of the i-th of so many loads that are on the road at the start. */
export const wayAhead = (i: number, count: number): number => (i + 0.5) / count;

/** s after midnight until which a machine is away; -Infinity for one that is there, Infinity for one that stays away all day. */
export function awayUntil({ away }: DayStart, kind: MachineKind, name: string): number {
  const meant = kind === "blade" || kind === "roller" ? "tractor" : kind;
  const found = away.find((each) => each.kind === meant && each.name === name);
  return found ? found.until ?? Infinity : -Infinity;
}
