/** From what a crew can tell of a day so far to the state that the rest of it starts from. */
import { densestDry } from "../forage/porespace.ts";
import { dryDensityOf, heaviestFirst, packingEffort } from "../forage/packing.ts";
import type { Now } from "../scenario/now.ts";
import { tippedOf } from "../scenario/tipped.ts";
import { truckNames } from "../scenario/trucknames.ts";
import type { Scenario } from "../scenario/types.ts";
import type { Load } from "./load.ts";
import { layerSeen, plannedDepth, plannedVolume, pushRate, rollingShares, roomOn, usualLoad } from "./pace.ts";
import { MORNING, type DayStart, type PastLift, type RoadLoad, type StorageStart } from "./start.ts";

/**
 * What nobody tells is taken as follows (all assumptions of this project):
 * - loads on the road are usual loads from the field in hand: the last one named that is not bare, else the first that is not;
 * - what lies packed has everywhere the density given, or the one that the crew gives it when all of it rolls all the working time since the
 *   shift began, less what the blades push; a usual load of it lies open on top;
 * - the apron holds usual loads, the last one what remains.
 */
export function takenUp(scenario: Scenario, now: Now): DayStart {
  const onTheRoad = roadOf(scenario, now);
  const fields = scenario.fields.map(() => ({ taken: 0, left: null as number | null }));
  const tipped: Load[][] = scenario.storages.map(() => []);
  for (const entry of now.delivered) {
    const { dryMatter } = scenario.fields[entry.field]!;
    const onRoad = onTheRoad.reduce((sum, load) => sum + (load.field === entry.field ? load.mass : 0), 0);
    // What is cut is on the road or tipped; what was tipped was weighed there.
    const mass = entry.mass ?? Math.max(0, tippedOf(entry, scenario) - onRoad);
    fields[entry.field] = { taken: mass + onRoad, left: entry.cut === null ? null : 1 - entry.cut };
    tipped[entry.storage]!.push({ mass, dryMass: mass * dryMatter });
  }
  for (const { field, mass } of onTheRoad) if (!now.delivered.some((entry) => entry.field === field)) fields[field]!.taken += mass;
  return {
    ...MORNING, at: now.at, fields, onTheRoad, away: now.away,
    storages: scenario.storages.map((_, s) => storageOf(scenario, s, now, { mass: sum(tipped[s]!, "mass"), dryMass: sum(tipped[s]!, "dryMass") })),
  };
}

/** True when a plan of the same crop can be taken up in that state: fields and storages as they were, and trucks enough for what is on the road. */
export function canTakeUp(before: Scenario, after: Scenario, start: DayStart): boolean {
  const there = truckNames(after).filter((name) => !start.away.some((each) => each.kind === "truck" && each.name === name));
  return before.storages.length === after.storages.length && there.length >= start.onTheRoad.length;
}

const sum = (loads: readonly Load[], what: keyof Load) => loads.reduce((total, load) => total + load[what], 0);

function roadOf(scenario: Scenario, now: Now): RoadLoad[] {
  if (now.onTheRoad === 0) return [];
  const isBare = (f: number) => {
    const entry = now.delivered.find(({ field }) => field === f);
    return entry !== undefined && (entry.cut === null ? tippedOf(entry, scenario) >= scenario.fields[f]!.area * scenario.fields[f]!.yield : entry.cut >= 1);
  };
  const inHand = [...now.delivered].reverse().find(({ field }) => !isBare(field))?.field ?? now.delivered.at(-1)?.field ?? 0;
  const storage = now.delivered.find(({ field }) => field === inHand)?.storage ?? scenario.fields[inHand]!.storages[0]!;
  const { mass } = usualLoad(scenario, storage);
  return Array.from({ length: now.onTheRoad }, () => ({ mass, dryMass: mass * scenario.fields[inHand]!.dryMatter, field: inHand, storage }));
}

function storageOf(scenario: Scenario, s: number, now: Now, all: Load): StorageStart {
  const lying = Math.min(now.apron[s]!, all.mass);
  const packed = all.mass - lying;
  if (all.mass <= 0) return { lifts: [], apron: [] };
  const dryMatter = all.dryMass / all.mass;
  const usual = usualLoad(scenario, s).mass;
  const cutUp = (mass: number): Load[] => Array.from({ length: Math.ceil(mass / usual - 1e-9) }, (_, i) => {
    const part = Math.min(usual, mass - i * usual);
    return { mass: part, dryMass: part * dryMatter };
  });
  const top = Math.min(packed, usual);
  const density = now.density ?? crewDensity(scenario, s, now.at, { mass: packed, dryMass: packed * dryMatter });
  const lifts = [packed - top, top].filter((mass) => mass > 0).map((mass): PastLift => ({ mass, dryMass: mass * dryMatter, layer: scenario.packing.layer, density }));
  return { lifts, apron: cutUp(lying) };
}

/** kg DM/m3 that a crew gives forage on which all of it rolls from the start of the shift on, but for the blades while they push; never beyond what leaves no pores. */
export function crewDensity(scenario: Scenario, s: number, until: number, { mass, dryMass }: Load): number {
  const { tractors } = scenario.storages[s]!;
  const { start, breaks } = scenario.shift;
  const { layer } = scenario.packing;
  if (mass <= 0) return scenario.targets.dryDensity;
  const rest = breaks.reduce((seconds, pause) => seconds + Math.max(0, Math.min(until, pause.at + pause.for) - pause.at), 0);
  const worked = Math.max(0, until - start - rest);
  const pushing = Math.min(worked, mass / pushRate(tractors, layer));
  const room = roomOn(scenario, scenario.storages[s]!, dryMass / scenario.targets.dryDensity, plannedVolume(scenario, s));
  const everybody = () => true;
  const beside = rollingShares(tractors, room, true, everybody);
  const seconds = rollingShares(tractors, room, false, everybody).map((share, i) => share * (worked - pushing) + beside[i]! * pushing);
  const masses = tractors.map((tractor) => tractor.mass);
  const density = dryDensityOf(packingEffort(masses, seconds, heaviestFirst(masses)), mass, dryMass / mass, layerSeen(scenario, layer), plannedDepth(scenario, s));
  return Math.min(density, densestDry(dryMass / mass));
}
