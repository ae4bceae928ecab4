/** What the day sheet says, reckoned from a rehearsed plan: SI figures and clocks, no words. Pure. */
import { bagLength, coverFor, filmOverlap, sheetWidth, tyresPerArea } from "../../sim/forage/geometry/index.ts";
import { steepestSlope } from "../../sim/forage/safety.ts";
import type { Sourced } from "../../sim/forage/sourced.ts";
import { dryMatterWindowOf } from "../../sim/forage/window.ts";
import { stopRules, type StopRules } from "../../sim/findings/stoprules.ts";
import type { Findings, StorageFinding } from "../../sim/findings/types.ts";
import type { Scenario, Storage } from "../../sim/scenario/types.ts";
import { loosestTenth } from "../lifts.ts";
import type { Rehearsed } from "../rehearsed.ts";

/** One pace on a slope. */
export const paceLength: Sourced = { value: 0.75, unit: "m", source: "a grown person's pace", mark: "common practice, no source" };

/** A field as the crew comes to it. */
export interface FieldRow {
  readonly name: string;
  /** of the shown day; null where several choppers worked or none did */ readonly chopper: string | null;
  /** m2 */ readonly area: number;
  /** fresh kg expected */ readonly mass: number;
  /** of the usual truck */ readonly loads: number;
  /** m */ readonly distance: number;
  /** s after midnight on the day shown; null where it was not reached */ readonly start: number | null;
  /** share of fresh mass */ readonly moisture: number;
}

/** A storage as its crew works it. */
export interface ClampSheet {
  readonly storage: Storage;
  readonly finding: StorageFinding;
  readonly rules: StopRules;
  /** kg fresh of a usual load */ readonly load: number;
  /** min from one load to the next at the planned pace; NaN where nothing comes */ readonly every: number;
  /** run per rise: the storage's own, or the steepest advised where that is flatter */ readonly run: number;
  /** m that the slope rises in ten paces */ readonly riseInTen: number;
  /** paces from the foot of the slope to the full height */ readonly pacesToTop: number;
  /** kg DM/m3 of the loosest tenth */ readonly loosest: number;
  readonly cover: { readonly from: number; readonly until: number; readonly sheets: number } | null;
}

export interface DaySheet {
  readonly fields: readonly FieldRow[];
  /** kinds there are, and their planned load, kg */ readonly trucks: readonly { readonly kind: string; readonly count: number; readonly load: number }[];
  /** min between two loads at the pace */ readonly every: number;
  /** min */ readonly round: number;
  /** s after midnight: 10th percentile, mean, 90th percentile */ readonly finish: readonly [number, number, number];
  /** s after midnight on the day shown, when the first and the last truck has tipped its last load */ readonly home: readonly [number, number] | null;
  readonly clamps: readonly ClampSheet[];
  /** moisture over which, and under which, the chopper stops; shares of fresh mass */ readonly moisture: { readonly most: number; readonly least: number; readonly source: string; readonly mark: string };
}

export const PACES = 10;

export function daySheetOf(findings: Findings, { scenario, replay: { day }, clamps }: Rehearsed): DaySheet {
  const { measures } = findings;
  const every = 60 / (measures.loadsPerHour?.mean ?? NaN);
  const finished = measures.finishedAt;
  const clockOf = (hours: number | undefined) => scenario.shift.start + (hours ?? NaN) * 3600;
  const window = dryMatterWindowOf(scenario.crop.kind);
  const rules = stopRules(scenario);
  const home = day.machines.flatMap((machine, i) => {
    if (machine.kind !== "truck") return [];
    const tips = day.trips.filter((trip) => trip.truck === i && !Number.isNaN(trip.tipped)).map((trip) => trip.tipped);
    return tips.length > 0 ? [Math.max(...tips)] : [];
  });
  const tipped = day.trips.filter((trip) => !Number.isNaN(trip.tipped)).length;
  return {
    fields: fieldRows(scenario, day),
    trucks: scenario.trucks.map(({ kind, count, load }) => ({ kind, count, load })),
    every, round: measures.truckCycle?.mean ?? NaN,
    finish: [clockOf(finished?.p10), clockOf(finished?.mean), clockOf(finished?.p90)],
    home: home.length > 0 ? [Math.min(...home), Math.max(...home)] : null,
    clamps: rules.map((rule) => {
      const s = scenario.storages.findIndex(({ name }) => name === rule.storage);
      const storage = scenario.storages[s]!;
      const finding = findings.storages.find(({ name }) => name === rule.storage) ?? findings.storages[s]!;
      const here = day.trips.filter((trip) => trip.storage === s && !Number.isNaN(trip.tipped)).length;
      return clampSheet(storage, finding, rule, here > 0 ? (every * tipped) / here : NaN, clockOf(finished?.mean), clamps[s]!);
    }),
    moisture: { most: 1 - window.value[0], least: 1 - window.value[1], source: window.source, mark: window.mark },
  };
}

function clampSheet(storage: Storage, finding: StorageFinding, rules: StopRules, every: number, finish: number, story: Rehearsed["clamps"][number]): ClampSheet {
  const run = Math.max(storage.wedge, steepestSlope.value);
  return {
    storage, finding, rules, every, run,
    load: (rules.apronTonnes * 1000) / rules.apronLoads,
    riseInTen: (PACES * paceLength.value) / run,
    pacesToTop: Math.ceil((storage.height * run) / paceLength.value - 1e-9),
    loosest: loosestTenth(story),
    cover: storage.cover === "none" ? null : { from: finish, until: finish + finding.cover.hours * 3600, sheets: coverFor(storage, story.stored.volume).sheets },
  };
}

/** m of one sheet of film. */
export const SHEET_WIDTH = sheetWidth.value;

/** What film and weights are reckoned with, and who says so: m2 that a tyre covers, m of a bag, m of film over a joint. */
export const COVERING = {
  tyre: 1 / tyresPerArea.value, bag: bagLength.value, overlap: filmOverlap.value, sheetMark: sheetWidth.mark,
  marks: [...new Set([tyresPerArea, bagLength, filmOverlap].map(({ mark }) => mark))],
} as const;

function fieldRows(scenario: Scenario, day: Rehearsed["replay"]["day"]): FieldRow[] {
  const trucks = scenario.trucks.reduce((sum, { count }) => sum + count, 0);
  const load = scenario.trucks.reduce((sum, kind) => sum + kind.count * kind.load, 0) / trucks;
  return scenario.fields.map((field, f): FieldRow => {
    const trips = day.trips.filter((trip) => trip.field === f && !Number.isNaN(trip.fillFrom));
    const choppers = new Set(trips.map(({ chopper }) => chopper));
    const mass = field.area * field.yield;
    return {
      name: field.name, area: field.area, mass, distance: field.distance, moisture: 1 - field.dryMatter,
      loads: Math.ceil(mass / load - 1e-9),
      chopper: choppers.size === 1 ? scenario.choppers[[...choppers][0]!]!.name : null,
      start: trips.length > 0 ? Math.min(...trips.map(({ fillFrom }) => fillFrom)) : null,
    };
  }).sort((a, b) => (a.start ?? Infinity) - (b.start ?? Infinity) || 0);
}
